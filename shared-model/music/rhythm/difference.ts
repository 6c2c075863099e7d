/** What a bar does otherwise than the bar it is meant to be, as a player would say it. */
import { mod, type Pattern } from "./pattern.ts";

/** A hit found this many steps away is still the same hit. */
const REACH = 2;
/** Price of a missing or an extra hit, in steps: a little dearer than moving one by a step and a half. */
const ALONE = 1.6;

/** One thing that differs; `late` is in steps, negative = early. */
export type Difference =
  | { readonly of: "moved"; readonly step: number; readonly late: number }
  | { readonly of: "missing"; readonly step: number }
  | { readonly of: "extra"; readonly step: number };

export interface Compared {
  /** Sum of the steps hits were moved by, and 1.6 for each that is missing or extra. 0 only for equal bars. */
  readonly cost: number;
  /** In the order of the target's steps, extras by their own. */
  readonly differences: readonly Difference[];
}

interface Path {
  readonly cost: number;
  readonly differences: readonly Difference[];
}

const EMPTY: Path = { cost: 0, differences: [] };

const cheapest = (paths: readonly Path[]): Path =>
  paths.reduce((best, path) => (path.cost < best.cost - 1e-9 ? path : best));

const extend = (path: Path, cost: number, difference?: Difference): Path => ({
  cost: path.cost + cost,
  differences: difference === undefined ? path.differences : [...path.differences, difference],
});

/** The cheapest matching that keeps the order, of two bars that were cut open at one place. */
const alignedFrom = (target: Pattern, played: Pattern, cut: number): Path => {
  const { steps } = target;
  const open = ({ onsets }: Pattern): readonly number[] =>
    onsets.map((step) => mod(step - cut, steps)).sort((a, b) => a - b);
  const [wanted, heard] = [open(target), open(played)];
  const back = (step: number): number => mod(step + cut, steps);
  let row: Path[] = [EMPTY];
  for (const [j, step] of heard.entries())
    row.push(extend(row[j] ?? EMPTY, ALONE, { of: "extra", step: back(step) }));
  for (const want of wanted) {
    const next: Path[] = [extend(row[0] ?? EMPTY, ALONE, { of: "missing", step: back(want) })];
    for (const [j, hear] of heard.entries()) {
      const late = hear - want;
      const ways = [
        extend(row[j + 1] ?? EMPTY, ALONE, { of: "missing", step: back(want) }),
        extend(next[j] ?? EMPTY, ALONE, { of: "extra", step: back(hear) }),
      ];
      const moved: Difference | undefined = late === 0 ? undefined : { of: "moved", step: back(want), late };
      if (Math.abs(late) <= REACH) ways.unshift(extend(row[j] ?? EMPTY, Math.abs(late), moved));
      next.push(cheapest(ways));
    }
    row = next;
  }
  return row[heard.length] ?? EMPTY;
};

/**
 * Compares a bar with its target by the cheapest matching of their hits that keeps their order round the bar: a hit moved by
 * up to two steps costs the steps, a missing or an extra one 1.6. Throws RangeError for bars of different length.
 */
export const compareBars = (target: Pattern, played: Pattern): Compared => {
  if (target.steps !== played.steps) throw new RangeError(`${target.steps} steps against ${played.steps}`);
  // Hits may move across the bar line, but some place of the bar is crossed by none.
  const cuts = Array.from({ length: target.steps }, (_, cut) => alignedFrom(target, played, cut));
  const { cost, differences } = cheapest(cuts);
  return { cost, differences: [...differences].sort((a, b) => a.step - b.step) };
};
