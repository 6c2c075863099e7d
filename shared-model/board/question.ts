import type { Id } from "./ids.ts";

/** One device's answer to a question. Answers given apart stand side by side; answering again replaces one's own. */
export interface Answer {
  readonly writer: Id;
  readonly text: string;
  /** The person who answered, as their device says; empty = unknown. */
  readonly by: Id | "";
  readonly at: number;
}

/** Something a player wants to know about a song or one of its details. Append-only. */
export interface Question {
  readonly id: Id;
  readonly song: Id;
  /** Null = about the whole song. */
  readonly card: Id | null;
  /** The chair it is asked from; null = none in particular. */
  readonly chair: Id | null;
  /** The gig it is asked for; null = none in particular. */
  readonly gig: Id | null;
  /** The person who is asked; null = nobody in particular. */
  readonly to: Id | null;
  /** The ruling it sees differently; null = a plain question. */
  readonly ruling: Id | null;
  readonly text: string;
  /** The person who asks; empty = unknown. */
  readonly by: Id | "";
  readonly at: number;
  /** Who asked, or the leader, needs no more answer. */
  readonly settled: boolean;
  /** Ordered by (at, writer). */
  readonly answers: readonly Answer[];
}
