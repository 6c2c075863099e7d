import { expect, test } from "vitest";
import {
  formatKey,
  type Key,
  keyWithSignature,
  parseKey,
  pitchClassOf,
  showKey,
  signatureOf,
} from "#shared/music/key.ts";
import { capoShape, semitonesBetween, transposeKey } from "#shared/music/transpose.ts";

const key = (text: string): Key => {
  const read = parseKey(text);
  if (!read.ok) throw new Error(read.error);
  return read.value;
};

/**
 * Key signatures. Source: Standard MIDI Files 1.0, meta event FF 59 (sf = −7 to 7), the same integers as `fifths`
 * in MusicXML 4.0; also printed by tonal 6.4.2, `Key.majorKey(k).alteration` and `.minorRelative`.
 */
const signatures: readonly (readonly [number, string, string])[] = [
  [-7, "Cb", "Abm"],
  [-6, "Gb", "Ebm"],
  [-5, "Db", "Bbm"],
  [-4, "Ab", "Fm"],
  [-3, "Eb", "Cm"],
  [-2, "Bb", "Gm"],
  [-1, "F", "Dm"],
  [0, "C", "Am"],
  [1, "G", "Em"],
  [2, "D", "Bm"],
  [3, "A", "F#m"],
  [4, "E", "C#m"],
  [5, "B", "G#m"],
  [6, "F#", "D#m"],
  [7, "C#", "A#m"],
];

test.each(signatures)("signature %d is %s and its relative minor %s", (signature, major, minor) => {
  expect([signatureOf(key(major)), signatureOf(key(minor))]).toEqual([signature, signature]);
  expect(formatKey(keyWithSignature(signature, "major"))).toBe(major);
  expect(formatKey(keyWithSignature(signature, "minor"))).toBe(minor);
});

/** Pitch classes. Source: MIDI note numbers modulo 12 with middle C = 60 (MIDI 1.0; octave labels vary, numbers do not). */
const numbers: readonly (readonly [string, number])[] = [
  ["C", 60], ["Db", 61], ["C#", 61], ["D", 62], ["Eb", 63], ["E", 64], ["F", 65], ["F#", 66], ["Gb", 66],
  ["G", 67], ["Ab", 68], ["A", 69], ["Bb", 70], ["B", 71], ["Cb", 59],
]; // biome-ignore format: one glance

test.each(numbers)("%s sounds as MIDI note %d, octaves apart", (name, number) => {
  expect(pitchClassOf(key(name))).toBe(number % 12);
});

/** Shape, fret, sounding key. Source: printed by tonal 6.4.2 `Note.transpose` and spelled by signature. */
const capos: readonly (readonly [string, number, string])[] = [
  ["G", 2, "A"],
  ["C", 2, "D"],
  ["Am", 3, "Cm"],
  ["C", 4, "E"],
  ["G", 5, "C"],
  ["D", 1, "Eb"],
  ["Em", 7, "Bm"],
];

test.each(capos)("%s shapes behind a capo at fret %d sound in %s", (shape, fret, sounding) => {
  expect(formatKey(transposeKey(key(shape), fret))).toBe(sounding);
  expect(formatKey(capoShape(key(sounding), fret))).toBe(shape);
});

test("a half step down from E is E flat, never D sharp (tuning a half step down: common practice)", () => {
  expect(formatKey(transposeKey(key("E"), -1))).toBe("Eb");
  expect(showKey(transposeKey(key("Em"), -1))).toBe("E♭m");
  expect(semitonesBetween(key("E"), key("Eb"))).toBe(-1);
});

/** A capo and a lowered tuning add in semitones: common practice, no published source. */
test("half a step down with a capo at fret 3 sounds two semitones higher", () => {
  expect(formatKey(transposeKey(key("G"), -1 + 3))).toBe("A");
});
