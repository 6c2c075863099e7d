import type { Id } from "./ids.ts";

/** Status of one player on one card: 0 not started, 1 noticed, 2 practised, 3 locked in. */
export type Level = 0 | 1 | 2 | 3;

export const LEVELS = [0, 1, 2, 3] as const;

/** The words a player says for each level; index by `Level`. */
export const LEVEL_WORDS = ["not started", "noticed", "practised", "locked in"] as const;

/** One device's last word about one player's status on one card. */
export interface StatusMark {
  readonly writer: Id;
  readonly level: Level;
  /** Level the writer saw before this mark. */
  readonly from: Level;
  /** Moment (ms) the claim was last raised or re-confirmed; the score ages from here. Kept when lowering. */
  readonly anchor: number;
  /** Anchor the writer saw before this mark. */
  readonly fromAnchor: number;
  /** Hybrid time (ms) of the mark: the reader takes the latest by (at, writer). */
  readonly at: number;
}

/** What counts for one player on one card: the latest mark over all devices. */
export type Status = StatusMark;

/** True when `a` was made after `b`: ordered by (at, writer), compared by code unit. */
export const isLater = (
  a: { readonly at: number; readonly writer: Id },
  b: { readonly at: number; readonly writer: Id },
): boolean => a.at > b.at || (a.at === b.at && a.writer > b.writer);
