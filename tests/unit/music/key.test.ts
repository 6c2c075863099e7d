import { expect, test } from "vitest";
import { formatKey, keyWithSignature, parseKey, showKey } from "#shared/music/key.ts";
import { semitonesBetween, transposeKey } from "#shared/music/transpose.ts";

const read = (text: string): string => {
  const key = parseKey(text);
  return key.ok ? formatKey(key.value) : key.error;
};

const spellings: readonly (readonly [string, string])[] = [
  ["Em", "Em"],
  ["em", "Em"],
  [" E minor ", "Em"],
  ["E MINOR", "Em"],
  ["E-", "Em"],
  ["Emin", "Em"],
  ["F#m", "F#m"],
  ["f♯ minor", "F#m"],
  ["F sharp min", "F#m"],
  ["Bb", "Bb"],
  ["bb", "Bb"],
  ["B♭", "Bb"],
  ["BbM", "Bb"],
  ["B flat", "Bb"],
  ["b-flat major", "Bb"],
  ["E♭ minor", "Ebm"],
  ["E-flat-minor", "Ebm"],
  ["b", "B"],
  ["CM", "C"],
  ["Cmaj", "C"],
];

test.each(spellings)("%j is %s", (text, canonical) => {
  expect(read(text)).toBe(canonical);
});

test("a key without a signature is respelled to the same sound", () => {
  expect(["D#", "G#", "A#", "E#", "B#", "Fb", "Dbm", "Gbm", "Cbm"].map(read)).toEqual([
    "Eb", "Ab", "Bb", "F", "C", "E", "C#m", "F#m", "Bm",
  ]); // biome-ignore format: one glance
});

test("what is no key is refused with the way to write one", () => {
  for (const wrong of ["", "X", "Em7", "EB", "F##", "low", "D mixolydian", "E".repeat(10_000)]) {
    expect(read(wrong), wrong.slice(0, 20)).toMatch(/Write a letter from A to G/);
    expect(read(wrong).length).toBeLessThan(200);
  }
  expect(read("Hm")).toMatch(/in English names that note is B/);
});

test("keys are shown with real signs and stored without", () => {
  const key = parseKey("f# minor");
  expect(key.ok && [showKey(key.value), formatKey(key.value)]).toEqual(["F♯m", "F#m"]);
});

test("whole octaves keep the spelling, part steps and impossible signatures are mistakes", () => {
  const flat = keyWithSignature(-6, "major");
  expect(formatKey(transposeKey(flat, 12))).toBe("Gb");
  expect(() => transposeKey(flat, 0.5)).toThrow(RangeError);
  expect(() => keyWithSignature(8, "major")).toThrow(RangeError);
});

test("the way between two keys is the shorter one", () => {
  const between = (from: string, to: string) => {
    const [a, b] = [parseKey(from), parseKey(to)];
    return a.ok && b.ok ? semitonesBetween(a.value, b.value) : null;
  };
  expect([between("E", "D"), between("G", "C"), between("F#m", "Em"), between("C", "F#")]).toEqual([
    -2, 5, -2, 6,
  ]);
});
