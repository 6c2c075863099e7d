import { useSyncExternalStore } from "react";
import type { DepGigStore, DepState } from "#client/store/dep-gig.ts";

/** The gig as it stands on this device. */
export const useDepGig = (store: DepGigStore): DepState => useSyncExternalStore(store.subscribe, store.state);
