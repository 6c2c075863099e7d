/** What a detail may show beside its words: a bar as a grid of steps, and a fretted shape. */
import type { Id } from "./ids.ts";

/** One step: rest, hit, accent, ghost. */
export const HITS = [".", "x", "X", "o"] as const;
export type Hit = (typeof HITS)[number];

/** One chair's line of a grid. */
export interface GridRow {
  readonly chair: Id;
  /** One of `HITS` for every step. */
  readonly hits: string;
}

/** Bars on equal steps, repeated for as long as the detail lasts. Step 0 is beat 1. */
export interface Grid {
  /** From `STEPS_LEAST` to `STEPS_MOST`, whole beats. */
  readonly steps: number;
  /** Steps in one counted beat: in 4/4 of a crotchet, in 6/8 of a dotted one. */
  readonly perBeat: number;
  /** At least one; a chair at most once. */
  readonly rows: readonly GridRow[];
}

/** What a hand holds on a fretted instrument, lowest string first. */
export interface Shape {
  /** Counted from the capo; 0 = open, null = not played. */
  readonly frets: readonly (number | null)[];
  /** 1 = index finger to 4 = little finger, for each string; null = not said. */
  readonly fingers: readonly (number | null)[];
  /** The fret that is meant by 0; no capo = 0. */
  readonly capo: number;
}

export const STEPS_LEAST = 4;
export const STEPS_MOST = 48;
export const PER_BEAT_MOST = 12;
export const STRINGS_LEAST = 4;
export const STRINGS_MOST = 8;
export const FRET_MOST = 24;
export const CAPO_MOST = 12;
export const FINGER_MOST = 4;
/** Frets a hand covers without moving; common practice, no published source. */
export const WIDE = 5;

const isWhole = (n: number, low: number, high: number): boolean =>
  Number.isInteger(n) && n >= low && n <= high;

export const isHit = (sign: string): sign is Hit => (HITS as readonly string[]).includes(sign);

/** Why this is no grid, in one sentence that says what to do; null when it is one. */
export const gridFault = ({ steps, perBeat, rows }: Grid): string | null => {
  if (!isWhole(steps, STEPS_LEAST, STEPS_MOST))
    return `Give a grid ${STEPS_LEAST} to ${STEPS_MOST} steps, not ${steps}.`;
  if (!isWhole(perBeat, 1, PER_BEAT_MOST))
    return `Divide a beat into 1 to ${PER_BEAT_MOST} steps, not ${perBeat}.`;
  if (steps % perBeat !== 0)
    return `Choose a number of steps that ${perBeat} divides: ${steps} are no whole beats.`;
  if (rows.length === 0) return "Give the grid a row for at least one chair, or take it off the detail.";
  if (new Set(rows.map(({ chair }) => chair)).size < rows.length)
    return "A chair has two rows in this grid: put its hits into one of them and take the other off.";
  for (const { hits } of rows) {
    if (hits.length !== steps)
      return `A row has ${hits.length} of ${steps} steps: say for each of them whether it is a rest, a hit, an accent or a ghost.`;
    if (![...hits].every(isHit))
      return "Write a step as a dot for a rest, x for a hit, X for an accent or o for a ghost.";
  }
  return null;
};

/** Why this is no shape, in one sentence that says what to do; null when it is one. */
export const shapeFault = ({ frets, fingers, capo }: Shape): string | null => {
  if (!isWhole(frets.length, STRINGS_LEAST, STRINGS_MOST))
    return `Give a shape ${STRINGS_LEAST} to ${STRINGS_MOST} strings, not ${frets.length}.`;
  if (fingers.length !== frets.length)
    return "Say for each string which finger holds it, or leave it open: there are more or fewer fingers than strings.";
  if (!isWhole(capo, 0, CAPO_MOST)) return `Put the capo at a fret from 0 (none) to ${CAPO_MOST}.`;
  if (frets.some((fret) => fret !== null && !isWhole(fret, 0, FRET_MOST)))
    return `Give each string a fret from 0 (open) to ${FRET_MOST}, or nothing where it is not played.`;
  if (frets.every((fret) => fret === null))
    return "No string is played: give at least one a fret, or take the shape off the detail.";
  if (fingers.some((finger) => finger !== null && !isWhole(finger, 1, FINGER_MOST)))
    return `Number the fingers from 1 (index) to ${FINGER_MOST} (little).`;
  if (fingers.some((finger, i) => finger !== null && !(frets[i] ?? 0)))
    return "A finger stands on an open or unplayed string: give that string a fret, or leave its finger out.";
  return null;
};

/** Frets that are held down, ascending; open and unplayed strings hold none. */
export const heldFrets = ({ frets }: Pick<Shape, "frets">): readonly number[] =>
  frets.filter((fret): fret is number => fret !== null && fret > 0).sort((a, b) => a - b);

/** What a hand should know before it tries; null when there is nothing to say. */
export const shapeRemark = (shape: Shape): string | null => {
  const held = heldFrets(shape);
  const spread = (held.at(-1) ?? 0) - (held[0] ?? 0) + 1;
  return spread > WIDE ? `This spans ${spread} frets, a wide stretch: never hold one that hurts.` : null;
};

/** The step after this one when somebody taps it: rest, hit, accent, ghost, rest. */
export const nextHit = (hit: string): Hit => HITS[(HITS.indexOf(hit as Hit) + 1) % HITS.length] ?? ".";

/** The sign at a step of a row; a rest where there is none. */
export const hitAt = ({ hits }: Pick<GridRow, "hits">, step: number): Hit => {
  const sign = hits[step] ?? ".";
  return isHit(sign) ? sign : ".";
};
