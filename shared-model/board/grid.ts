/** What a detail may show beside its words: a bar as a grid of steps, and a fretted shape. */
import type { Id } from "./ids.ts";

/** One step: rest, hit, accent, ghost; `-` = the note before it goes on. */
export const HITS = [".", "x", "X", "o", "-"] as const;
export type Hit = (typeof HITS)[number];

/** What of a kit, or of hands, a row may be of its own. Stored, so a name is for ever. */
export const GRID_VOICES = ["kick", "snare", "hats", "crash", "ride", "toms", "clap"] as const;
export type GridVoice = (typeof GRID_VOICES)[number];

/** One line of a grid: a chair, or one voice of it. */
export interface GridRow {
  readonly chair: Id;
  /** Absent = what the chair plays as a whole. */
  readonly voice?: GridVoice | undefined;
  /** One of `HITS` for every step. */
  readonly hits: string;
}

/** Bars on equal steps, repeated for as long as the detail lasts. Step 0 is beat 1. */
export interface Grid {
  /** From `STEPS_LEAST` to `STEPS_MOST`, whole beats. */
  readonly steps: number;
  /** Steps in one counted beat: in 4/4 of a crotchet, in 6/8 of a dotted one. */
  readonly perBeat: number;
  /** At least one; a chair and voice at most once. */
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
  /** Its open strings, lowest first, or the name of a tuning; absent = as the song is tuned. */
  readonly tuning?: string;
}

export const STEPS_LEAST = 4;
export const STEPS_MOST = 48;
export const PER_BEAT_MOST = 12;
export const STRINGS_LEAST = 4;
export const STRINGS_MOST = 8;
export const FRET_MOST = 24;
export const CAPO_MOST = 12;
export const FINGER_MOST = 4;

const isWhole = (n: number, low: number, high: number): boolean =>
  Number.isInteger(n) && n >= low && n <= high;

export const isHit = (sign: string): sign is Hit => (HITS as readonly string[]).includes(sign);

/** What is wrong with a grid; its sentence is in `grid-reading.ts`, which a phone does without at first. */
export type GridFault = "steps" | "division" | "beats" | "no rows" | "two rows" | "length" | "signs" | "held";

/** Names a row within its grid. */
export const rowKey = ({ chair, voice }: Pick<GridRow, "chair" | "voice">): string =>
  `${chair}/${voice ?? ""}`;

/**
 * True where every held step follows a note or a held step. A grid follows itself: what is held on step 0 goes on from the
 * last step.
 */
const holdsNotes = (hits: string): boolean => !/\.-/.test(hits.at(-1) + hits) && !/^-+$/.test(hits);

/** The first thing that makes this no grid; null when it is one. */
export const faultInGrid = ({ steps, perBeat, rows }: Grid): GridFault | null => {
  if (!isWhole(steps, STEPS_LEAST, STEPS_MOST)) return "steps";
  if (!isWhole(perBeat, 1, PER_BEAT_MOST)) return "division";
  if (steps % perBeat !== 0) return "beats";
  if (rows.length === 0) return "no rows";
  if (new Set(rows.map(rowKey)).size < rows.length) return "two rows";
  if (rows.some(({ hits }) => hits.length !== steps)) return "length";
  if (!rows.every(({ hits }) => [...hits].every(isHit))) return "signs";
  return rows.every(({ hits }) => holdsNotes(hits)) ? null : "held";
};

/** What is wrong with a shape. */
export type ShapeFault = "strings" | "fingers" | "capo" | "frets" | "silent" | "finger" | "open";

/** The first thing that makes this no shape; null when it is one. */
export const faultInShape = ({ frets, fingers, capo }: Shape): ShapeFault | null => {
  if (!isWhole(frets.length, STRINGS_LEAST, STRINGS_MOST)) return "strings";
  if (fingers.length !== frets.length) return "fingers";
  if (!isWhole(capo, 0, CAPO_MOST)) return "capo";
  if (frets.some((fret) => fret !== null && !isWhole(fret, 0, FRET_MOST))) return "frets";
  if (frets.every((fret) => fret === null)) return "silent";
  if (fingers.some((finger) => finger !== null && !isWhole(finger, 1, FINGER_MOST))) return "finger";
  return fingers.some((finger, i) => finger !== null && !frets[i]) ? "open" : null;
};
