/**
 * Strings, frets and what they sound: note numbers of MIDI, lowest string first. A sounding note is its open string plus
 * the capo plus the fret.
 */
import type { Shape } from "../board/grid.ts";
import { shapeFault } from "../board/grid-reading.ts";
import { err, ok, type Result } from "../lib/result.ts";
import { type Key, parseKey } from "./key.ts";
import { noteName, parseNote } from "./note-name.ts";
import { BASS_STRINGS, parseTuning, STANDARD_STRINGS } from "./tuning.ts";

/**
 * Open strings of the usual instrument with so many strings: basses with four and five, guitars with six, seven and
 * eight. Common practice, no published source.
 */
const USUAL: Readonly<Record<number, readonly number[]>> = {
  4: BASS_STRINGS,
  5: [23, ...BASS_STRINGS],
  6: STANDARD_STRINGS,
  7: [35, ...STANDARD_STRINGS],
  8: [30, 35, ...STANDARD_STRINGS],
};
const OCTAVE = 12;
const LETTER = /^[A-Ga-g](?:#|♯|b|♭)?$/u;
const HIGHEST = 127;
/** Highest open string that leaves room for the capo and the last fret. */
const OPEN_MOST = HIGHEST - 36;

/** The note of that letter nearest to a usual string; between two, the lower, as strings break less easily slack. */
const nearest = (letter: string, usual: number): number | null => {
  const read = parseNote(`${letter}4`);
  if (!read.ok) return null;
  const up = (((read.value - usual) % OCTAVE) + OCTAVE) % OCTAVE;
  return usual + (up < OCTAVE / 2 ? up : up - OCTAVE);
};

/**
 * Notes written as one word: `DADGAD`, `EbAbDbGb`. Where all letters are small, `b` is the note: `dadgbd`.
 */
const notesIn = (word: string): readonly string[] =>
  word === word.toLowerCase() ? [...word] : (word.match(/[A-G](?:#|♯|b|♭)?\d?|./gu) ?? []);

/**
 * Reads the tuning of a shape with so many strings: a tuning by its name, or every open string by its note, with or
 * without the octave. Without one the note nearest to the usual string is meant.
 * @returns the open strings, or one sentence that says what to do
 */
export const readStrings = (text: string, strings: number): Result<readonly number[]> => {
  const usual = USUAL[strings] ?? STANDARD_STRINGS;
  const named = parseTuning(text);
  if (named !== null) {
    if (strings === named.strings.length) return ok(named.strings);
    const plain = named.strings.every((string, i) => string - (STANDARD_STRINGS[i] ?? 0) === named.semitones);
    // What a bass does while the guitars drop one string, or tune to a chord, every band settles for itself.
    return plain
      ? ok(usual.map((string) => string + named.semitones))
      : err(`“${text.trim()}” says nothing of ${strings} strings: write their notes, lowest string first.`);
  }
  const signs = text
    .trim()
    .split(/[\s,–-]+/u)
    .filter((sign) => sign !== "");
  const notes = signs.length === 1 ? notesIn(signs[0] ?? "") : signs;
  const open = notes.map((note, i) => {
    if (LETTER.test(note)) return nearest(note, usual[i] ?? 40);
    const read = parseNote(note);
    return read.ok ? read.value : null;
  });
  if (notes.length !== strings || open.includes(null))
    return err(
      `Write the ${strings} open strings as notes, lowest first, such as ${usualText(strings)}, or name a tuning.`,
    );
  const pitches = open.filter((pitch) => pitch !== null);
  return pitches.some((pitch) => pitch > OPEN_MOST)
    ? err("That is higher than any string is tuned: give the octave as well, such as E4.")
    : ok(pitches);
};

const C_MAJOR: Key = { letter: "C", accidental: 0, mode: "major" };
/** Bands name lowered strings in flats: E♭, never D♯. */
const FLATS: Key = { letter: "E", accidental: -1, mode: "major" };

const usualText = (strings: number): string =>
  (USUAL[strings] ?? STANDARD_STRINGS).map((string) => noteName(string, C_MAJOR)).join(" ");

/** Open strings by name: `E2 A2 D3 G3 B3 E4`; in flats where a string is lowered, as bands say it. */
export const stringsText = (open: readonly number[]): string =>
  open.map((string) => noteName(string, FLATS)).join(" ");

/** What each string of a shape sounds, lowest first; null = not played. */
export const soundingNotes = (
  { frets, capo }: Pick<Shape, "frets" | "capo">,
  open: readonly number[],
): readonly (number | null)[] =>
  frets.map((fret, i) => (fret === null ? null : (open[i] ?? 0) + capo + fret));

/** The song's words about tuning and key, as far as a shape needs them. */
export interface Tuned {
  /** The song's own, else the band's. */
  readonly tuning: string;
  /** Spells the notes; one that cannot be read counts as C. */
  readonly key: string;
}

/** How a shape's strings are tuned: its own tuning, else the song's. A sentence where that cannot be read. */
export const shapeStrings = (shape: Shape, { tuning }: Pick<Tuned, "tuning">): Result<readonly number[]> =>
  readStrings(shape.tuning ?? tuning, shape.frets.length);

/** The notes a shape sounds, spelled in the song's key: `C3 E3 G3 C4 E4`. Null where the tuning cannot be read. */
export const shapeNotes = (shape: Shape, tuned: Tuned): string | null => {
  const open = shapeStrings(shape, tuned);
  if (!open.ok) return null;
  const key = parseKey(tuned.key);
  return soundingNotes(shape, open.value)
    .filter((note) => note !== null)
    .map((note) => noteName(note, key.ok ? key.value : C_MAJOR))
    .join(" ");
};

/** Why a shape cannot be kept, its own tuning included; one sentence, or null when it can. */
export const tunedShapeFault = (shape: Shape): string | null => {
  const fault = shapeFault(shape);
  if (fault !== null || shape.tuning === undefined) return fault;
  const open = readStrings(shape.tuning, shape.frets.length);
  return open.ok ? null : open.error;
};

/**
 * How the strings are tuned, where that is not the standard, and what sounds: `Strings D2 A2 D3 G3 A3 D4; sounds …`. Null
 * where the tuning cannot be read.
 */
export const shapeSoundWords = (shape: Shape, tuned: Tuned): string | null => {
  const open = shapeStrings(shape, tuned);
  const notes = shapeNotes(shape, tuned);
  if (!open.ok || notes === null) return null;
  const usual = readStrings("", shape.frets.length);
  const standard = usual.ok && usual.value.every((string, i) => string === open.value[i]);
  return `${standard ? "Sounds" : `Strings ${stringsText(open.value)}; sounds`} ${notes}.`;
};
