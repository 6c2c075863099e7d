/** A dep's one gig, as its screen reads it and answers it. Implemented by client/sync. */
import type { DepGig } from "#shared/protocol/dep-api.ts";
import type { KeptAnswer } from "#shared/selectors/dep-view.ts";

export type DepConnection = "asking" | "connected" | "offline" | "refused";

export interface DepState {
  /** As the server last told it; null = not yet, or not any more. */
  readonly gig: DepGig | null;
  /** Moment (ms, device clock) it last equalled the server's; null = never. */
  readonly asOf: number | null;
  /** Answers of this device that the gig does not hold yet, in the order they were given. */
  readonly answers: readonly KeptAnswer[];
  readonly connection: DepConnection;
  /** Why the server turned this device away, or what this device cannot do; empty otherwise. */
  readonly reason: string;
}

export interface DepGigStore {
  /** The same reference until something changes. */
  readonly state: () => DepState;
  readonly subscribe: (listener: () => void) => () => void;
  readonly gotIt: (card: string) => void;
  /** `card` null = about the whole song. */
  readonly ask: (song: string, card: string | null, text: string) => void;
  /** Forgets a refused answer once its owner has read why. */
  readonly dismiss: (id: string) => void;
  /** Sends what waits and looks again. */
  readonly refresh: () => Promise<void>;
  readonly close: () => void;
}
