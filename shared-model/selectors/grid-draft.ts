/** A grid and a shape while somebody writes them: what there is at first, and what each hand movement makes of it. */
import type { Chair } from "../board/band.ts";
import type { CardKind } from "../board/card.ts";
import {
  type Grid,
  type GridRow,
  type Hit,
  rowKey,
  type Shape,
  STEPS_LEAST,
  STEPS_MOST,
} from "../board/grid.ts";
import { hitAt, withoutLooseHolds } from "../board/grid-reading.ts";
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

const KIT = ["hats", "snare", "kick"] as const;

/** A silent bar for these chairs: sixteenths where they can be chosen, drums as hats, snare and kick. */
export const emptyGrid = (metre: string, chairs: readonly Pick<Chair, "id" | "instrument">[]): Grid => {
  const divisions = divisionsOf(metre);
  const { steps, perBeat } = divisions.find(({ perBeat }) => perBeat === 4) ?? divisions[0] ?? USUAL;
  return {
    steps,
    perBeat,
    rows: chairs.flatMap(({ id, instrument }): readonly GridRow[] =>
      instrument === "drums"
        ? KIT.map((voice) => ({ chair: id, voice, hits: ".".repeat(steps) }))
        : [{ chair: id, hits: ".".repeat(steps) }],
    ),
  };
};

/** The same hits on other steps. What falls between the new ones, or after the last, is left out; see `lostIn`. */
export const divided = (grid: Grid, { steps, perBeat }: Pick<Division, "steps" | "perBeat">): Grid => ({
  steps,
  perBeat,
  rows: grid.rows.map((row) => ({
    ...row,
    hits: withoutLooseHolds(
      Array.from({ length: steps }, (_, step) => {
        const before = (step * grid.perBeat) / perBeat;
        if (Number.isInteger(before)) return hitAt(row, before);
        // Between two steps a note sounds on where the second of them is held.
        return hitAt(row, Math.ceil(before) % grid.steps) === "-" ? "-" : ".";
      }).join(""),
    ),
  })),
});

/** Steps of each row whose notes have no step in a division, rows that lose nothing left out. */
export const lostIn = (
  grid: Grid,
  { steps, perBeat }: Pick<Division, "steps" | "perBeat">,
): readonly { readonly row: GridRow; readonly steps: readonly number[] }[] =>
  grid.rows.flatMap((row) => {
    const lost = [...row.hits].flatMap((hit, step) => {
      const after = (step * perBeat) / grid.perBeat;
      return hit === "." || hit === "-" || (Number.isInteger(after) && after < steps) ? [] : [step];
    });
    return lost.length === 0 ? [] : [{ row, steps: lost }];
  });

/** Which row is meant. */
export type RowId = Pick<GridRow, "chair" | "voice">;

const changed = (grid: Grid, of: RowId, change: (hits: string) => string): Grid => ({
  ...grid,
  rows: grid.rows.map((row) =>
    rowKey(row) === rowKey(of) ? { ...row, hits: withoutLooseHolds(change(row.hits)) } : row,
  ),
});

/** What was held by a note that goes becomes a rest. */
export const withHit = (grid: Grid, of: RowId, step: number, hit: Hit): Grid =>
  changed(grid, of, (hits) => hits.slice(0, step) + hit + hits.slice(step + 1));

/** A row one step later (1) or earlier (−1), round the grid. */
export const withShift = (grid: Grid, of: RowId, by: 1 | -1): Grid =>
  changed(grid, of, (hits) =>
    by === 1 ? hits.slice(-1) + hits.slice(0, -1) : hits.slice(1) + hits.slice(0, 1),
  );

export const withRow = (grid: Grid, { chair, voice }: RowId): Grid =>
  grid.rows.some((row) => rowKey(row) === rowKey({ chair, voice }))
    ? grid
    : {
        ...grid,
        rows: [
          ...grid.rows,
          { chair, ...(voice === undefined ? {} : { voice }), hits: ".".repeat(grid.steps) },
        ],
      };

/** Null once the last row is gone. */
export const withoutRow = (grid: Grid, of: RowId): Grid | null => {
  const rows = grid.rows.filter((row) => rowKey(row) !== rowKey(of));
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
  : "steps" in drawn ? [drawn.steps, drawn.perBeat, drawn.rows.map((row) => [rowKey(row), row.hits])]
  : [drawn.frets, drawn.fingers, drawn.capo, drawn.tuning]; // biome-ignore format: one decision
