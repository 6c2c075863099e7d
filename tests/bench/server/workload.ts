import type { BoardName } from "./boards.ts";
import type { ChildServer } from "./child-server.ts";
import type { Peer } from "./peers.ts";

/** One workload against one peer. */
export interface WorkloadRun {
  readonly peer: Peer;
  /** Starts the peer on the run's folder, which is empty at first and kept between starts. */
  readonly start: () => Promise<ChildServer>;
  /** Empties that folder. */
  readonly reset: () => Promise<void>;
  readonly boardOf: (name: BoardName) => Uint8Array;
  /** How long to tick. */
  readonly seconds: number;
}
