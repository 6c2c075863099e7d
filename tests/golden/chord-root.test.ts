import fc from "fast-check";
import { Chord, Interval, Note } from "tonal";
import { describe, expect, test } from "vitest";
import { chordIn, isChord } from "#shared/music/chord-root.ts";
import { formatKey, keyWithSignature, parseKey, pitchClassOf } from "#shared/music/key.ts";
import { laws } from "#tests/support/fuzz.ts";

const key = (text: string) => {
  const read = parseKey(text);
  if (!read.ok) throw new Error(read.error);
  return read.value;
};
const move = (chord: string, from: string, to: string): string => chordIn(chord, key(from), key(to));
const majors = fc
  .integer({ min: -5, max: 6 })
  .map((signature) => formatKey(keyWithSignature(signature, "major")));
const notes = fc.constantFrom("C", "C#", "Db", "D", "Eb", "E", "F", "F#", "Gb", "G", "Ab", "A", "Bb", "B");
const quality = fc.constantFrom(
  "",
  "m",
  "7",
  "m7",
  "maj7",
  "sus4",
  "5",
  "m7b5",
  "6",
  "9",
  "dim",
  "aug",
  "add9",
);

describe("a chord in another key", () => {
  // Worked by the rule that every chord keeps its step of the scale, common practice in any book of harmony.
  test.each([
    ["D5", "D", "E", "E5"],
    ["F#m7/E", "D", "C", "Em7/D"],
    ["Bb", "F", "E", "A"],
    ["G#dim", "E", "Eb", "Gdim"],
    ["Em7/B", "Em", "Dm", "Dm7/A"],
    ["C#m7b5", "Bm", "Am", "Bm7b5"],
    ["Dm", "Dm", "Dm", "Dm"],
    // Relative keys share their chords.
    ["G", "G", "Em", "G"],
    ["F", "C", "Am", "F"],
    ["G", "G", "F#m", "A"],
  ])("%s of %s is, in %s, %s", (chord, from, to, moved) => {
    expect(move(chord, from, to)).toBe(moved);
  });

  // tonal 6.4.2: Note.transpose by Interval.distance of the tonics keeps letter and sound; double accidentals are respelled here.
  test("has the root that another library gives it, and always its sound", () => {
    fc.assert(
      fc.property(notes, quality, majors, majors, (root, built, from, to) => {
        const moved = move(`${root}${built}`, from, to);
        expect(moved.endsWith(built)).toBe(true);
        const ours = moved.slice(0, moved.length - built.length);
        const theirs = Note.transpose(root, Interval.distance(from, to));
        expect(Note.chroma(ours)).toBe(Note.chroma(theirs));
        if (!/##|bb/.test(theirs)) expect(ours).toBe(theirs);
      }),
      laws(300),
    );
  });

  test("comes back from where it went by sound, and stays one chord", () => {
    fc.assert(
      fc.property(notes, quality, notes, majors, majors, (root, built, bass, from, to) => {
        const there = move(`${root}${built}/${bass}`, from, to);
        expect(isChord(there)).toBe(true);
        const back = move(there, to, from);
        const [head = "", low = ""] = back.split("/");
        expect(pitchClassOf(key(low))).toBe(pitchClassOf(key(bass)));
        expect(pitchClassOf(key(head.slice(0, head.length - built.length)))).toBe(pitchClassOf(key(root)));
      }),
      laws(200),
    );
  });
});

describe("one chord is", () => {
  // tonal's dictionary of chord types, in its plainest symbols.
  test.each([
    "C",
    "Am",
    "F#m7",
    "Bb",
    "Ebmaj7",
    "Dsus4",
    "E7#9",
    "G5",
    "Cadd9",
    "Bm7b5",
    "Adim",
    "Gaug",
    "D/F#",
    "C6/9",
  ])("%s, which another library knows too", (chord) => {
    expect(Chord.get(chord).empty).toBe(false);
    expect(isChord(chord)).toBe(true);
  });

  test.each(["", "Bass alone", "Em then A", "riff", "H7", "c", "D5 low", "A".repeat(30), "Dm/"])(
    "not %j",
    (text) => {
      expect(isChord(text)).toBe(false);
    },
  );
});
