import { expect, test } from "vitest";
import { type Key, parseKey } from "#shared/music/key.ts";
import { melodyFromTimes, melodyOf } from "#shared/music/key-fit/melody.ts";
import { tessituraShift } from "#shared/music/key-fit/voice.ts";
import { noteName, parseNote } from "#shared/music/note-name.ts";

const note = (text: string): number => {
  const read = parseNote(text);
  if (!read.ok) throw new Error(read.error);
  return read.value;
};
const key = (text: string): Key => {
  const read = parseKey(text);
  if (!read.ok) throw new Error(read.error);
  return read.value;
};

/** ISO 16:1975 sets A4 = 440 Hz; MIDI numbers it 69. Values as printed by tonal 6.4.2, `Note.midi`. */
test.each([
  ["A0", 21],
  ["C4", 60],
  ["A4", 69],
  ["C8", 108],
  ["C-1", 0],
  ["G9", 127],
  ["B#3", 60],
  ["Cb4", 59],
  ["Eb2", 39],
])("the note %s has the number %i", (text, number) => {
  expect(note(text)).toBe(number);
});

/**
 * Tessitura shift, after Herbst, Duus, Jers & Švec, "Quantitative Voice Class Assessment of Amateur Choir Singers",
 * International Journal of Research in Choral Singing 4(1), 2012; the numbers follow from the formula by hand: a singer
 * from F3 to F5, a song from A3 to D5.
 */
test.each([
  [0, 0.5],
  [2, 2.5],
  [-1, -0.5],
])("the tessitura shift of the worked example, %i semitones up, is %f", (up, shift) => {
  const song = melodyFromTimes(
    new Map([
      [note("A3"), 1],
      [note("D5"), 1],
    ]),
  );
  if (!song.ok) throw new Error(song.error);
  const voice = {
    lowest: note("F3"),
    comfortLow: note("A3"),
    comfortHigh: note("C5"),
    highest: note("F5"),
  };
  expect(tessituraShift(song.value, voice, up)).toBe(shift);
});

/**
 * The mean of a PERT distribution is (low + 4·typical + high)/6: "Application of a Technique
 * for Research and Development Program Evaluation", Operations Research 7(5), 1959.
 */
test.each([
  ["A3", "D4", "B4"],
  ["G3", "A4", "B4"],
  ["E3", "F3", "E5"],
])("three notes %s, %s, %s give the mean of the PERT distribution", (low, typical, high) => {
  const three = { low: note(low), typical: note(typical), high: note(high) };
  const melody = melodyOf(three);
  if (!melody.ok) throw new Error(melody.error);
  const mean = [...melody.value].reduce((sum, [pitch, share]) => sum + pitch * share, 0);
  // Gathering into whole semitones moves it by a few hundredths.
  expect(mean).toBeCloseTo((three.low + 4 * three.typical + three.high) / 6, 1);
});

/** Scale notes by their key signature (Standard MIDI Files 1.0, FF 59); notes beside the scale: common practice. */
test.each([
  ["D", "D E F♯ G A B C♯", [62, 64, 66, 67, 69, 71, 73]],
  ["Eb", "E♭ F G A♭ B♭ C D", [63, 65, 67, 68, 70, 72, 74]],
  ["F#m", "F♯ G♯ A B C♯ D E", [66, 68, 69, 71, 73, 74, 76]],
  ["Gb", "G♭ A♭ B♭ C♭ D♭ E♭ F", [66, 68, 70, 71, 73, 75, 77]],
  ["Am", "A G♯", [69, 68]],
  ["C", "E♭ F♯ B♭", [63, 66, 70]],
])("in %s one writes %s", (tonic, names, pitches) => {
  expect(pitches.map((pitch) => noteName(pitch, key(tonic)).replace(/-?\d+$/, "")).join(" ")).toBe(names);
});
