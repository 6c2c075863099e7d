import { expect, test } from "vitest";
import { parseNote } from "#shared/music/note-name.ts";
import { BASS_STRINGS, parseTuning, STANDARD_STRINGS, stringNames } from "#shared/music/tuning.ts";

const pitches = (names: string): number[] =>
  names.split(" ").map((name) => {
    const read = parseNote(name);
    if (!read.ok) throw new Error(read.error);
    return read.value;
  });

/**
 * Strings of the guitar and the bass guitar by MIDI number: common practice of the trade, no published source; the
 * intervals follow by counting fourths (5 semitones) with one major third (4).
 */
test.each([
  ["standard", "E2 A2 D3 G3 B3 E4", [40, 45, 50, 55, 59, 64]],
  ["half step down", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4", [39, 44, 49, 54, 58, 63]],
  ["whole step down", "D2 G2 C3 F3 A3 D4", [38, 43, 48, 53, 57, 62]],
  ["drop D", "D2 A2 D3 G3 B3 E4", [38, 45, 50, 55, 59, 64]],
  ["drop D, half a step down", "Db2 Ab2 Db3 Gb3 Bb3 Eb4", [37, 44, 49, 54, 58, 63]],
  ["open G", "D2 G2 D3 G3 B3 D4", [38, 43, 50, 55, 59, 62]],
])("%s has the strings %s", (words, names, strings) => {
  expect(parseTuning(words)?.strings).toEqual(strings);
  expect(pitches(names)).toEqual(strings);
});

test("standard guitar and bass strings lie in fourths, with one major third on the guitar", () => {
  const steps = (strings: readonly number[]): number[] =>
    strings.slice(1).map((string, i) => string - (strings[i] ?? 0));
  expect(steps(STANDARD_STRINGS)).toEqual([5, 5, 5, 4, 5]);
  expect(BASS_STRINGS).toEqual(pitches("E1 A1 D2 G2"));
  expect(steps(BASS_STRINGS)).toEqual([5, 5, 5]);
});

/** Spelling by the flats of E♭, never D♯: common practice; transposing note by note by a minor second down gives D♯2. */
test("half a step down is spelled in flats", () => {
  const tuning = parseTuning("Eb");
  expect(tuning && stringNames(tuning)).toBe("E♭2 A♭2 D♭3 G♭3 B♭3 E♭4");
});

test.each([
  ["E♭ tuning", -1],
  ["D-standard", -2],
  ["Down a half step", -1],
  ["", 0],
  ["Drop C#", -1],
])("a band's “%s” stands %i semitones from standard", (words, semitones) => {
  expect(parseTuning(words)?.semitones).toBe(semitones);
});

test("words nobody can count with are no tuning", () => {
  for (const words of ["nashville", "H standard", "-1", "drop", "down"])
    expect(parseTuning(words)).toBeNull();
});
