/**
 * Shares as people read them: whole points out of a hundred, never a false decimal.
 * Governing rule: parts shown beside their whole add up to it.
 */
import type { Split } from "../readiness/song-score.ts";

/** Parts of a split in the order they are told: what counts for the song first. */
export const SPLIT_PARTS = ["shown", "said", "waiting", "slipped", "unsaid", "uncovered"] as const;
export type SplitPart = (typeof SPLIT_PARTS)[number];

/** A share (0 to 1) in whole points. */
export const pointsOf = (share: number): number => Math.round(share * 100);

/**
 * A difference of shares in whole points with its sign: `+4`, `−3`, `0`; `under 1` and `under 1 less` where something
 * moves that rounds to nothing.
 */
export const signedPoints = (difference: number): string => {
  const points = Math.abs(pointsOf(difference));
  if (difference === 0) return "0";
  if (points === 0) return difference > 0 ? "under 1" : "under 1 less";
  return `${difference > 0 ? "+" : "−"}${points}`;
};

/**
 * Divides `total` whole points among shares by the largest remainder (Hamilton's method), so that they add up.
 * Earlier shares win ties. Shares need not sum to 1; all of them 0 gives only zeros.
 */
export const apportion = (shares: readonly number[], total: number): readonly number[] => {
  const sum = shares.reduce((all, share) => all + share, 0);
  if (sum <= 0) return shares.map(() => 0);
  const exact = shares.map((share) => (share / sum) * total);
  const points = exact.map(Math.floor);
  const left = total - points.reduce((all, point) => all + point, 0);
  const byRemainder = exact
    .map((value, i) => ({ i, rest: value - Math.floor(value) }))
    .sort((a, b) => b.rest - a.rest || a.i - b.i);
  for (const { i } of byRemainder.slice(0, left)) points[i] = (points[i] ?? 0) + 1;
  return points;
};

/** A split in whole points: all six add up to 100, and shown + said to the score's own points. */
export const splitPoints = (split: Split): { readonly [P in SplitPart]: number } => {
  const score = pointsOf(split.said + split.shown);
  const [shown = 0, said = 0] = apportion([split.shown, split.said], score);
  const rest = [split.waiting, split.slipped, split.unsaid, split.uncovered];
  const [waiting = 0, slipped = 0, unsaid = 0, uncovered = 0] = apportion(rest, 100 - score);
  return { shown, said, waiting, slipped, unsaid, uncovered };
};
