import { Interval, Note } from "tonal";
import { describe, expect, test } from "vitest";
import { intervalWords } from "#shared/board/sides/side-words.ts";
import {
  readStrings,
  shapeNotes,
  shapeSoundWords,
  soundingNotes,
  tunedShapeFault,
} from "#shared/music/fretboard.ts";

const open = (text: string, strings = 6): readonly number[] => {
  const read = readStrings(text, strings);
  if (!read.ok) throw new Error(read.error);
  return read.value;
};

/** The library's own note numbers: independent of ours, development only. */
const midi = (names: string): (number | null)[] => names.split(" ").map((name) => Note.midi(name));

/**
 * Open strings by MIDI number: common knowledge of the trade, no published source; the note numbers are checked against
 * the library tonal 6.4.2.
 */
test.each([
  ["", 6, "E2 A2 D3 G3 B3 E4", [40, 45, 50, 55, 59, 64]],
  ["half step down", 6, "Eb2 Ab2 Db3 Gb3 Bb3 Eb4", [39, 44, 49, 54, 58, 63]],
  ["Eb Ab Db Gb Bb Eb", 6, "Eb2 Ab2 Db3 Gb3 Bb3 Eb4", [39, 44, 49, 54, 58, 63]],
  ["EbAbDbGbBbEb", 6, "Eb2 Ab2 Db3 Gb3 Bb3 Eb4", [39, 44, 49, 54, 58, 63]],
  ["D A D G B E", 6, "D2 A2 D3 G3 B3 E4", [38, 45, 50, 55, 59, 64]],
  ["DADGAD", 6, "D2 A2 D3 G3 A3 D4", [38, 45, 50, 55, 57, 62]],
  ["dadgad", 6, "D2 A2 D3 G3 A3 D4", [38, 45, 50, 55, 57, 62]],
  ["D-G-D-G-B-D", 6, "D2 G2 D3 G3 B3 D4", [38, 43, 50, 55, 59, 62]],
  ["open G", 6, "D2 G2 D3 G3 B3 D4", [38, 43, 50, 55, 59, 62]],
  ["D2 A2 D3 F#3 A3 D4", 6, "D2 A2 D3 F#3 A3 D4", [38, 45, 50, 54, 57, 62]],
  ["C G C F A D", 6, "C2 G2 C3 F3 A3 D4", [36, 43, 48, 53, 57, 62]],
  ["", 7, "B1 E2 A2 D3 G3 B3 E4", [35, 40, 45, 50, 55, 59, 64]],
  ["", 4, "E1 A1 D2 G2", [28, 33, 38, 43]],
  ["", 5, "B0 E1 A1 D2 G2", [23, 28, 33, 38, 43]],
  ["D A D G", 4, "D1 A1 D2 G2", [26, 33, 38, 43]],
  ["half step down", 4, "Eb1 Ab1 Db2 Gb2", [27, 32, 37, 42]],
])("“%s” on %i strings is %s", (text, strings, names, pitches) => {
  expect(open(text, strings)).toEqual(pitches);
  expect(midi(names)).toEqual(pitches);
});

test.each([
  ["drop D", 4, /says nothing of 4 strings/],
  ["six of the best", 6, /Write the 6 open strings as notes, lowest first, such as E2 A2 D3 G3 B3 E4/],
  ["D A D G", 6, /Write the 6/],
  ["D A D G A H", 6, /Write the 6/],
  ["E9 A9 D9 G9 B9 E9", 6, /Write the 6|higher than any string/],
])("“%s” on %i strings is refused", (text, strings, sentence) => {
  const read = readStrings(text, strings);
  expect(!read.ok && read.error).toMatch(sentence);
});

const C_SHAPE = { frets: [null, 3, 2, 0, 1, 0], fingers: [null, 3, 2, null, 1, null], capo: 0 };
const SHAPES = {
  G: [3, 2, 0, 0, 0, 3],
  C: [null, 3, 2, 0, 1, 0],
  Am: [null, 0, 2, 2, 1, 0],
  D: [null, null, 0, 2, 3, 2],
  Em: [0, 2, 2, 0, 0, 0],
} as const;

/**
 * The chord that a shape sounds over a capo: shape plus fret, a semitone each. Common practice, no published source; the
 * roots are moved by the library tonal 6.4.2.
 */
describe.each([
  ["G", 2, "A"],
  ["C", 2, "D"],
  ["Am", 3, "Cm"],
  ["C", 4, "E"],
  ["G", 5, "C"],
  ["D", 1, "Eb"],
  ["Em", 7, "Bm"],
] as const)("%s shape, capo %i", (shape, capo, sounds) => {
  test(`sounds ${sounds}`, () => {
    const frets = SHAPES[shape];
    const plain = soundingNotes({ frets, capo: 0 }, open(""));
    const over = soundingNotes({ frets, capo }, open(""));
    expect(over).toEqual(plain.map((note) => (note === null ? null : note + capo)));
    const root = (chord: string): string => chord.replace("m", "");
    const moved = Note.transpose(root(shape), Interval.fromSemitones(capo));
    expect(Note.chroma(moved)).toBe(Note.chroma(root(sounds)));
    const third = sounds.endsWith("m") ? 3 : 4;
    const tonic = Note.chroma(root(sounds)) ?? 0;
    const sounding = over.filter((note) => note !== null).map((note) => note % 12);
    expect(new Set(sounding)).toEqual(new Set([tonic, (tonic + third) % 12, (tonic + 7) % 12]));
  });
});

test("a capo and a lowered tuning add up: half a step down and capo 3 are two semitones up", () => {
  const down = soundingNotes({ frets: SHAPES.G, capo: 3 }, open("half step down"));
  expect(down).toEqual(soundingNotes({ frets: SHAPES.G, capo: 2 }, open("")));
});

test("sounding notes are spelled in the song's key, and a tuning that is not the standard is told", () => {
  expect(shapeNotes(C_SHAPE, { tuning: "", key: "C" })).toBe("C3 E3 G3 C4 E4");
  expect(shapeNotes({ ...C_SHAPE, capo: 3 }, { tuning: "", key: "Eb" })).toBe("E♭3 G3 B♭3 E♭4 G4");
  expect(shapeSoundWords(C_SHAPE, { tuning: "standard", key: "C" })).toBe("Sounds C3 E3 G3 C4 E4.");
  expect(shapeSoundWords({ ...C_SHAPE, tuning: "DADGAD" }, { tuning: "standard", key: "C" })).toBe(
    "Strings D2 A2 D3 G3 A3 D4; sounds C3 E3 G3 B♭3 D4.",
  );
  expect(shapeSoundWords(C_SHAPE, { tuning: "as the weather is", key: "C" })).toBeNull();
});

test("[CMD-3] a shape with a tuning that cannot be read is refused with what to write", () => {
  expect(tunedShapeFault({ ...C_SHAPE, tuning: "DADGAD" })).toBeNull();
  expect(tunedShapeFault({ ...C_SHAPE, tuning: "DADG" })).toMatch(/Write the 6 open strings/);
  expect(tunedShapeFault({ ...C_SHAPE, capo: 13, tuning: "DADGAD" })).toMatch(/capo/);
});

/** An interval's number is its steps along the scale plus one: the library tonal 6.4.2 names the same steps. */
test.each([
  [1, "2M", "second"],
  [2, "3M", "third"],
  [3, "4P", "fourth"],
  [4, "5P", "fifth"],
  [5, "6M", "sixth"],
  [6, "7M", "seventh"],
  [7, "8P", "octave"],
  [9, "10M", "tenth"],
] as const)("%i steps are %s, a %s", (steps, interval, name) => {
  const read = Interval.get(interval);
  expect((read.step ?? 0) + 7 * (read.oct ?? 0)).toBe(steps);
  expect(intervalWords(steps)).toMatch(new RegExp(`^an? ${name} above$`));
  expect(intervalWords(-steps)).toMatch(new RegExp(`^an? ${name} below$`));
});
