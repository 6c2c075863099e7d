/** What an order of songs is judged by. Shares lie between 0 and 1; times are in seconds unless said otherwise. */
import type { Id } from "../board/ids.ts";

/** One song that could be played. */
export interface SetSong {
  readonly id: Id;
  readonly seconds: number;
  /** How big it feels. */
  readonly energy: number;
  /** How full it makes the floor. */
  readonly dance: number;
  /** What it is worth to play it: ready and liked, up to 1; beyond that when somebody asked for it. */
  readonly value: number;
  /** How well it opens and closes a block. */
  readonly opener: number;
  readonly closer: number;
  /** Counted beats per minute; null = not settled. */
  readonly tempo: number | null;
  /** Empty = not settled. */
  readonly key: string;
  /** Tuning and capo in one word: where they differ, somebody has to retune. */
  readonly tuning: string;
  /** What somebody changes to, an instrument or a stool; empty = nothing. */
  readonly rig: string;
  /** Who sings it; null = nobody or everybody. */
  readonly lead: Id | null;
  readonly hardToSing: boolean;
  readonly mustPlay: boolean;
}

/** A place that does not change: `at` counts from 0; −1 is the last song of the block. */
export interface Pin {
  readonly song: Id;
  readonly block: number;
  readonly at: number;
}

/** One block of the night. */
export interface SetBlock {
  /** Contracted minutes. */
  readonly minutes: number;
  /** Energies wanted at even distances from its start to its end, at least one. */
  readonly arc: readonly number[];
}

export interface SetBrief {
  readonly songs: readonly SetSong[];
  readonly blocks: readonly SetBlock[];
  readonly pins: readonly Pin[];
  /** The order that stands: what stays beside what is a little cheaper. Empty = none. */
  readonly standing: readonly (readonly Id[])[];
  /** Seconds between two songs, and what talking adds to each block. */
  readonly gapSeconds: number;
  readonly talkSeconds: number;
}

/** The songs of each block, in playing order. */
export type SetOrder = readonly (readonly Id[])[];

/** Seconds that a retuning or another capo takes. Common practice, no published source. */
export const RETUNE_SECONDS = 45;
/** How many minutes a block may stay under what is contracted before it counts. */
export const SHORT_OF = 2;

/** Energy wanted at a share of a block's way, on straight lines between the arc's points. */
export const arcAt = (arc: readonly number[], share: number): number => {
  const at = Math.min(1, Math.max(0, share)) * (arc.length - 1);
  const [low, high] = [arc[Math.floor(at)] ?? 0, arc[Math.ceil(at)] ?? 0];
  return low + (high - low) * (at - Math.floor(at));
};
