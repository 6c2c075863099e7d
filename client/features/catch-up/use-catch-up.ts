import { useSyncExternalStore } from "react";
import type { CatchUpState, CatchUpStore } from "#client/store/catch-up-store.ts";

const never = () => () => {};

/** What is news, followed; null until it is known. */
export const useCatchUp = (catchUp: CatchUpStore | null): CatchUpState | null =>
  useSyncExternalStore(catchUp?.subscribe ?? never, () => catchUp?.state() ?? null);
