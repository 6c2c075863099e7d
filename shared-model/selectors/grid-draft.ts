/** A grid and a shape while somebody writes them: what there is at first, and what each hand movement makes of it. */
import type { Chair } from "../board/band.ts";
import type { CardKind } from "../board/card.ts";
import { type Grid, type Hit, type Shape, STEPS_LEAST, STEPS_MOST } from "../board/grid.ts";
import { hitAt } from "../board/grid-reading.ts";
import type { Id } from "../board/ids.ts";
import { beatsPerBar, isCompound, type Metre, parseMetre } from "../music/metre.ts";

/** Kinds of detail that a grid, or a shape, usually belongs to. Every detail may have either. */
export const GRID_KINDS: ReadonlySet<CardKind> = new Set([
  "groove",
  "pattern",
  "push",
  "stop",
  "cymbals",
  "fill",
]);
export const SHAPE_KINDS: ReadonlySet<CardKind> = new Set(["position", "shape"]);

/** How a grid may be divided. */
export interface Division {
  readonly steps: number;
  readonly perBeat: number;
  readonly bars: number;
}

const FOUR_FOUR: Metre = { groups: [4], unit: 4 };

/** What there is to choose for a song's metre: one bar in several steps a beat, two bars in the usual ones. */
export const divisionsOf = (metre: string): readonly Division[] => {
  const read = parseMetre(metre);
  const bar = read.ok ? read.value : FOUR_FOUR;
  const beats = beatsPerBar(bar);
  const inOne = isCompound(bar) ? [3, 6] : bar.unit >= 8 ? [1, 2] : [2, 3, 4, 6];
  const inTwo = isCompound(bar) ? [3] : bar.unit >= 8 ? [1, 2] : [2, 4];
  return [
    ...inOne.map((perBeat) => ({ steps: beats * perBeat, perBeat, bars: 1 })),
    ...inTwo.map((perBeat) => ({ steps: 2 * beats * perBeat, perBeat, bars: 2 })),
  ].filter(({ steps }) => Number.isInteger(steps) && steps >= STEPS_LEAST && steps <= STEPS_MOST);
};

const USUAL: Division = { steps: 16, perBeat: 4, bars: 1 };

/** A silent bar for these chairs: sixteenths where they can be chosen. */
export const emptyGrid = (metre: string, chairs: readonly Id[]): Grid => {
  const divisions = divisionsOf(metre);
  const { steps, perBeat } = divisions.find(({ perBeat }) => perBeat === 4) ?? divisions[0] ?? USUAL;
  return { steps, perBeat, rows: chairs.map((chair) => ({ chair, hits: ".".repeat(steps) })) };
};

/** The same hits on other steps. What falls between the new ones, or after the last, is left out. */
export const divided = (grid: Grid, { steps, perBeat }: Pick<Division, "steps" | "perBeat">): Grid => ({
  steps,
  perBeat,
  rows: grid.rows.map((row) => ({
    ...row,
    hits: Array.from({ length: steps }, (_, step) => {
      const before = (step * grid.perBeat) / perBeat;
      return Number.isInteger(before) ? hitAt(row, before) : ".";
    }).join(""),
  })),
});

export const withHit = (grid: Grid, chair: Id, step: number, hit: Hit): Grid => ({
  ...grid,
  rows: grid.rows.map((row) =>
    row.chair === chair ? { ...row, hits: row.hits.slice(0, step) + hit + row.hits.slice(step + 1) } : row,
  ),
});

export const withRow = (grid: Grid, chair: Id): Grid =>
  grid.rows.some((row) => row.chair === chair)
    ? grid
    : { ...grid, rows: [...grid.rows, { chair, hits: ".".repeat(grid.steps) }] };

/** Null once the last row is gone. */
export const withoutRow = (grid: Grid, chair: Id): Grid | null => {
  const rows = grid.rows.filter((row) => row.chair !== chair);
  return rows.length === 0 ? null : { ...grid, rows };
};

/** Strings of a usual instrument: a bass has four, everything else six. */
const stringsOf = (chair: Pick<Chair, "instrument"> | undefined): number =>
  chair?.instrument === "bass" ? 4 : 6;

/** All strings open. */
export const emptyShape = (chair: Pick<Chair, "instrument"> | undefined, capo: number): Shape => {
  const strings = stringsOf(chair);
  return { frets: Array(strings).fill(0), fingers: Array(strings).fill(null), capo };
};

/** Other frets, highest string kept in its place; fingers stay where a string is still held. */
export const withFrets = (shape: Shape, frets: readonly (number | null)[]): Shape => ({
  ...shape,
  frets,
  fingers: frets.map((fret, i) =>
    fret === null || fret === 0 ? null : (shape.fingers[i + shape.fingers.length - frets.length] ?? null),
  ),
});

/** More or fewer strings, at the low end. */
export const withStrings = (shape: Shape, strings: number): Shape =>
  withFrets(
    shape,
    Array.from({ length: strings }, (_, i) => {
      const fret = shape.frets[i + shape.frets.length - strings];
      return fret === undefined ? null : fret;
    }),
  );

export const withFret = (shape: Shape, string: number, fret: number | null): Shape =>
  withFrets(
    shape,
    shape.frets.map((before, i) => (i === string ? fret : before)),
  );

export const withFinger = (shape: Shape, string: number, finger: number | null): Shape => ({
  ...shape,
  fingers: shape.fingers.map((before, i) => (i === string ? finger : before)),
});

/** True when two grids, or two shapes, say the same. */
export const sameDrawn = (a: Grid | Shape | null, b: Grid | Shape | null): boolean =>
  JSON.stringify(ordered(a)) === JSON.stringify(ordered(b));

const ordered = (drawn: Grid | Shape | null): unknown =>
  drawn === null ? null
  : "steps" in drawn ? [drawn.steps, drawn.perBeat, drawn.rows.map(({ chair, hits }) => [chair, hits])]
  : [drawn.frets, drawn.fingers, drawn.capo]; // biome-ignore format: one decision
