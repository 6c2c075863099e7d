/**
 * Published distances between two bars of equal length, both cut open at beat 1: no hit moves across the bar line.
 * Source of both: Díaz-Báñez, Farigu, Gómez, Rappaport & Toussaint, "El Compás Flamenco", BRIDGES 2004.
 */
import type { Pattern } from "./pattern.ts";

/**
 * Directed swap distance, in steps: every hit of the busier bar moves to a hit of the other, each of which is reached at
 * least once, at the least sum of moves. With equally many hits it is the plain swap distance. Infinity where only one of
 * the bars is silent; throws RangeError for bars of different length.
 */
export const swapDistance = (a: Pattern, b: Pattern): number => {
  if (a.steps !== b.steps) throw new RangeError(`${a.steps} steps against ${b.steps}`);
  const [many, few] = a.onsets.length >= b.onsets.length ? [a.onsets, b.onsets] : [b.onsets, a.onsets];
  if (few.length === 0) return many.length === 0 ? 0 : Number.POSITIVE_INFINITY;
  // least[j]: the hits so far stand on the first j + 1 targets, the last of them on target j.
  let least: readonly number[] = few.map(() => Number.POSITIVE_INFINITY);
  many.forEach((from, i) => {
    const before = least;
    least = few.map((to, j) => {
      const first = i === 0 && j === 0 ? 0 : Number.POSITIVE_INFINITY;
      const on = Math.min(
        before[j] ?? Number.POSITIVE_INFINITY,
        before[j - 1] ?? Number.POSITIVE_INFINITY,
        first,
      );
      return on + Math.abs(from - to);
    });
  });
  return least[few.length - 1] ?? Number.POSITIVE_INFINITY;
};

/** For every step, how long the note lasts that sounds there; what comes before the first hit lasts until it. */
const noteLengths = ({ steps, onsets }: Pattern): readonly number[] => {
  const edges = [...new Set([0, ...onsets])].sort((x, y) => x - y);
  return edges.flatMap((edge, i) => {
    const length = (edges[i + 1] ?? steps) - edge;
    return Array.from({ length }, () => length);
  });
};

/**
 * Chronotonic distance: the area between the two bars drawn as note lengths over time, in steps². Throws RangeError for
 * bars of different length.
 */
export const chronotonicDistance = (a: Pattern, b: Pattern): number => {
  if (a.steps !== b.steps) throw new RangeError(`${a.steps} steps against ${b.steps}`);
  const other = noteLengths(b);
  return noteLengths(a).reduce((sum, length, step) => sum + Math.abs(length - (other[step] ?? 0)), 0);
};
