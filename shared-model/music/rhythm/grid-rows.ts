/** Rows of a grid as patterns, and two grids brought to the same steps. */
import { type Grid, type GridRow, rowKey } from "../../board/grid.ts";
import { hitAt } from "../../board/grid-reading.ts";
import { isStroke } from "../grid-words.ts";
import { interlock, pushes } from "./interlock.ts";
import type { Pattern } from "./pattern.ts";

/** A row's onsets: hits, accents and ghosts alike. */
export const patternOf = ({ hits }: Pick<GridRow, "hits">): Pattern => ({
  steps: hits.length,
  onsets: [...hits].flatMap((hit, step) => (isStroke(hit) ? [step] : [])),
});

/** The row the others lock to; null where the grid has no kick. */
export const kickOf = ({ rows }: Pick<Grid, "rows">): GridRow | null =>
  rows.find(({ voice }) => voice === "kick") ?? null;

/** Rows that answer the kick: what chairs play as a whole, apart from single voices of a kit. */
export const partsOf = ({ rows }: Pick<Grid, "rows">): readonly GridRow[] =>
  rows.filter(({ voice }) => voice === undefined);

/** What a step of a part is to the kick and to the beat. */
export interface StepMark {
  /** The kick sounds with it. */
  readonly withKick: boolean;
  /** It comes ahead of a beat that the part leaves out. */
  readonly push: boolean;
}

/** Marks of every row, by row key and step. Kit voices, and grids without a kick, have no coincidences. */
export const marksOf = (grid: Grid): ReadonlyMap<string, ReadonlyMap<number, StepMark>> => {
  const kick = kickOf(grid);
  const silent: Pattern = { steps: grid.steps, onsets: [] };
  const beat = kick === null ? silent : patternOf(kick);
  return new Map(
    partsOf(grid).map((row) => {
      const part = patternOf(row);
      const both = new Set(interlock(beat, part).both);
      const ahead = new Set(pushes(part, beat, grid.perBeat).map(({ step }) => step));
      return [
        rowKey(row),
        new Map(part.onsets.map((step) => [step, { withKick: both.has(step), push: ahead.has(step) }])),
      ];
    }),
  );
};

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));
const multiple = (a: number, b: number): number => (a * b) / divisor(a, b);

/** Each step cut into so many; a note that was held sounds on to where it was held. */
const finer = (hits: string, by: number): string =>
  [...hits]
    .map((hit, step) => hit + (hitAt({ hits }, (step + 1) % hits.length) === "-" ? "-" : ".").repeat(by - 1))
    .join("");

const onSteps = (grid: Grid, perBeat: number, steps: number): Grid => ({
  steps,
  perBeat,
  rows: grid.rows.map((row) => {
    const cut = finer(row.hits, perBeat / grid.perBeat);
    return { ...row, hits: cut.repeat(steps / cut.length) };
  }),
});

/**
 * Both grids on the finest steps that either needs, the shorter repeated as often as it fits into the longer. Null where it
 * does not fit, as one bar of three beats into one of four.
 */
export const onSameSteps = (a: Grid, b: Grid): readonly [Grid, Grid] | null => {
  const perBeat = multiple(a.perBeat, b.perBeat);
  const [long, short] = [a, b].map(({ steps, perBeat }) => steps / perBeat).sort((x, y) => y - x);
  if (long === undefined || short === undefined || long % short !== 0) return null;
  return [onSteps(a, perBeat, long * perBeat), onSteps(b, perBeat, long * perBeat)];
};
