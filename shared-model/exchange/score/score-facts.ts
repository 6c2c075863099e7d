/**
 * What is read of a song from a file in an open format, whichever it is. Lengths and places are in quarter notes, bars count
 * from 0, in the order in which they are played: repeats are written out. Words that are sung are never read.
 */

export interface ScoreBar {
  /** Quarter notes from the beginning of the song. */
  readonly start: number;
  /** Quarter notes; above 0. */
  readonly length: number;
  /** `4/4`, in the form that a song's metre has. */
  readonly metre: string;
  /** The bar as it is written, from 0: a bar that is played again bears the same number. */
  readonly written: number;
  /** True for a bar that only leads in: it is shorter than its metre and comes first. */
  readonly pickup: boolean;
}

export interface ScoreNote {
  readonly bar: number;
  /** Quarter notes from the beginning of the bar. */
  readonly beat: number;
  /** Quarter notes. */
  readonly length: number;
  /** What sounds: C4 = 60. Of percussion, the key of General MIDI's percussion map; 0 = it is not said. */
  readonly pitch: number;
  /** How hard, 0 to 1; null = not said. */
  readonly force: number | null;
}

export interface ScorePart {
  /** As the file has it; empty = none. */
  readonly name: string;
  /** Program of General MIDI, counted from 0; null = not said. */
  readonly program: number | null;
  readonly percussion: boolean;
  /** In the order in which they begin. */
  readonly notes: readonly ScoreNote[];
}

export interface ScoreFacts {
  readonly format: "MIDI" | "MusicXML";
  /** Empty = none. */
  readonly title: string;
  readonly bars: readonly ScoreBar[];
  /** Quarter notes a minute from a place on; ascending, the first at 0. Empty = not said. */
  readonly tempos: readonly { readonly at: number; readonly quarters: number }[];
  /** Sharps (above 0) or flats from a bar on; ascending. */
  readonly keys: readonly {
    readonly bar: number;
    readonly signature: number;
    readonly mode: "major" | "minor";
  }[];
  /** Markers or rehearsal marks, by the bar they stand at, ascending; one a bar. */
  readonly marks: readonly { readonly bar: number; readonly name: string }[];
  /** Bars at which a repeated stretch begins or what follows it, ascending. */
  readonly joints: readonly number[];
  readonly parts: readonly ScorePart[];
}

export const FILE_BYTES_MAX = 8 * 1024 * 1024;
/** What a compressed file may come to. */
export const UNPACKED_MAX = 32 * 1024 * 1024;
export const NOTES_MAX = 200_000;
/** A section holds no more either. */
export const SCORE_BARS_MAX = 999;
export const PARTS_MAX = 64;
export const MARKS_MAX = 400;
/** Longest name that is taken from a file; what is longer is cut. */
const NAME_MAX = 80;

/** Why a file cannot be read: one sentence, or two, that say what to do. */
export class Unreadable extends Error {}

export const broken = (where: string): Unreadable =>
  new Unreadable(`The file is damaged: ${where}. Export it again where it was made.`);

export const tooMany = (what: string, most: number): Unreadable =>
  new Unreadable(
    `The file has more than ${most.toLocaleString("en")} ${what}. Export only this song, or fewer of its parts.`,
  );

/** A name on one line, without signs that nobody can see. */
export const cleanName = (text: string): string =>
  text
    .slice(0, 4 * NAME_MAX)
    .replace(/[\p{Cc}\p{Cf}\p{Co}\p{Cs}�]+/gu, " ")
    .replace(/\s+/g, " ")
    .trim()
    .slice(0, NAME_MAX)
    .trim();

/** Quarter notes in a full bar. */
export const quartersIn = (beats: number, unit: number): number => (beats * 4) / unit;
