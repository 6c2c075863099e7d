/** What people are told of grids and shapes: why one cannot be kept, what a hand should know, the step after a tap. */
import {
  CAPO_MOST, FINGER_MOST, FRET_MOST, faultInGrid, faultInShape, type Grid, type GridFault, type GridRow, HITS, type Hit,
  isHit, PER_BEAT_MOST, type Shape, type ShapeFault,STEPS_LEAST, STEPS_MOST, STRINGS_LEAST, STRINGS_MOST, 
} from "./grid.ts"; // biome-ignore format: by theme

const GRID_WORDS: { readonly [F in GridFault]: (grid: Grid) => string } = {
  steps: ({ steps }) => `Give a grid ${STEPS_LEAST} to ${STEPS_MOST} steps, not ${steps}.`,
  division: ({ perBeat }) => `Divide a beat into 1 to ${PER_BEAT_MOST} steps, not ${perBeat}.`,
  beats: ({ steps, perBeat }) =>
    `Choose a number of steps that ${perBeat} divides: ${steps} are no whole beats.`,
  "no rows": () => "Give the grid a row for at least one chair, or take it off the detail.",
  "two rows": () =>
    "A chair has two rows for the same thing in this grid: put the hits into one of them and take the other off.",
  length: ({ steps, rows }) =>
    `A row has ${rows.find(({ hits }) => hits.length !== steps)?.hits.length} of ${steps} steps: say for each of them whether it is a rest, a hit, an accent, a ghost or held.`,
  signs: () =>
    "Write a step as a dot for a rest, x for a hit, X for an accent, o for a ghost or - for a note that is held.",
  held: () =>
    "A step is held where no note sounds before it: put a note in front of it, or make it a rest. On the first step it goes on from the last one.",
};

const SHAPE_WORDS: { readonly [F in ShapeFault]: (shape: Shape) => string } = {
  strings: ({ frets }) => `Give a shape ${STRINGS_LEAST} to ${STRINGS_MOST} strings, not ${frets.length}.`,
  fingers: () =>
    "Say for each string which finger holds it, or leave it open: there are more or fewer fingers than strings.",
  capo: () => `Put the capo at a fret from 0 (none) to ${CAPO_MOST}.`,
  frets: () => `Give each string a fret from 0 (open) to ${FRET_MOST}, or nothing where it is not played.`,
  silent: () => "No string is played: give at least one a fret, or take the shape off the detail.",
  finger: () => `Number the fingers from 1 (index) to ${FINGER_MOST} (little).`,
  open: () =>
    "A finger stands on an open or unplayed string: give that string a fret, or leave its finger out.",
};

/** Why this is no grid, in one sentence that says what to do; null when it is one. */
export const gridFault = (grid: Grid): string | null => {
  const fault = faultInGrid(grid);
  return fault === null ? null : GRID_WORDS[fault](grid);
};

/** Why this is no shape, in one sentence that says what to do; null when it is one. */
export const shapeFault = (shape: Shape): string | null => {
  const fault = faultInShape(shape);
  return fault === null ? null : SHAPE_WORDS[fault](shape);
};

/** Frets a hand covers without moving; common practice, no published source. */
const WIDE = 5;

/** Frets that are held down, ascending; open and unplayed strings hold none. */
export const heldFrets = ({ frets }: Pick<Shape, "frets">): readonly number[] =>
  frets.filter((fret): fret is number => fret !== null && fret > 0).sort((a, b) => a - b);

/** What a hand should know before it tries; null when there is nothing to say. */
export const shapeRemark = (shape: Shape): string | null => {
  const held = heldFrets(shape);
  const spread = (held.at(-1) ?? 0) - (held[0] ?? 0) + 1;
  return spread > WIDE ? `This spans ${spread} frets, a wide stretch: never hold one that hurts.` : null;
};

/** True where a step can be held: what comes before it, round the grid, is no rest, and not this step itself. */
export const canHold = (hits: string, step: number): boolean => {
  for (let back = 1; back < hits.length; back += 1) {
    const before = hits.at(step - back);
    if (before !== "-") return before !== ".";
  }
  return false;
};

/** The step after this one when somebody taps it: rest, hit, accent, ghost, held where it can be, rest. */
export const nextHit = (hits: string, step: number): Hit => {
  const next = HITS[(HITS.indexOf((hits[step] ?? ".") as Hit) + 1) % HITS.length] ?? ".";
  return next === "-" && !canHold(hits, step) ? "." : next;
};

/** The same with a rest wherever a step was held that no note leads to. */
export const withoutLooseHolds = (hits: string): string =>
  [...hits].map((sign, step) => (sign === "-" && !canHold(hits, step) ? "." : sign)).join("");

/** The sign at a step of a row; a rest where there is none. */
export const hitAt = ({ hits }: Pick<GridRow, "hits">, step: number): Hit => {
  const sign = hits[step] ?? ".";
  return isHit(sign) ? sign : ".";
};
