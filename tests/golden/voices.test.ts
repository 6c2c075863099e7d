/** Published ranges of the four voices, as outside checks of the note names and of what counts as a voice. */
import { expect, test } from "vitest";
import { isVoice } from "#shared/board/voice.ts";
import { parseNote } from "#shared/music/note-name.ts";

const note = (text: string): number => {
  const read = parseNote(text);
  if (!read.ok) throw new Error(read.error);
  return read.value;
};
type Range = readonly [low: string, high: string];
type Table = { readonly S: Range; readonly A: Range; readonly T: Range; readonly B: Range };

/** There is no single table: each is stored as printed, with its source. */
const TABLES: Readonly<Record<string, Table>> = {
  // K. Kothman, college theory course, teachingmusic.keithkothman.com, 2009.
  kothman: { S: ["C4", "G5"], A: ["G3", "C5"], T: ["C3", "G4"], B: ["E2", "C4"] },
  // Haskell package hmt 0.20, voice_rng_tbl_std.
  hmtStandard: { S: ["C4", "A5"], A: ["F3", "F5"], T: ["C3", "A4"], B: ["D2", "C4"] },
  // The same, voice_rng_tbl_safe.
  hmtSafe: { S: ["C4", "F5"], A: ["G3", "C5"], T: ["C3", "F4"], B: ["G2", "C4"] },
};

const VOICES = ["B", "T", "A", "S"] as const;

test.each(Object.entries(TABLES))(
  "%s: sopranos begin at C4, tenors at C3, and the voices rise in order",
  (_, table) => {
    expect(note(table.S[0])).toBe(60);
    expect(note(table.T[0])).toBe(48);
    for (const edge of [0, 1] as const) {
      const notes = VOICES.map((voice) => note(table[voice][edge]));
      expect(notes).toEqual([...notes].sort((a, b) => a - b));
    }
  },
);

test("the safe range of every voice lies within its standard one, and the two make a voice", () => {
  const { hmtSafe, hmtStandard } = TABLES as { hmtSafe: Table; hmtStandard: Table };
  for (const voice of VOICES) {
    const [lowest, comfortLow, comfortHigh, highest] = [
      note(hmtStandard[voice][0]),
      note(hmtSafe[voice][0]),
      note(hmtSafe[voice][1]),
      note(hmtStandard[voice][1]),
    ];
    expect(isVoice({ lowest, comfortLow, comfortHigh, highest }), voice).toBe(true);
  }
});

/** A printed octave slip: bass C2 to C4 lies lower than any table's bass. */
test("a bass from C2 lies below every published one", () => {
  for (const { B } of Object.values(TABLES)) expect(note("C2")).toBeLessThan(note(B[0]));
});

/** Semitones of intervals by letter and sign, as printed by tonal 6.4.2, `Interval.semitones`; from C4. */
test.each([
  ["C4", 0], ["Db4", 1], ["D4", 2], ["Eb4", 3], ["E4", 4], ["F4", 5], ["F#4", 6], ["Gb4", 6], ["G4", 7], ["Ab4", 8],
  ["A4", 9], ["Bb4", 10], ["B4", 11], ["C5", 12], ["D5", 14], ["G5", 19], ["A5", 21],
] as const)("%s lies %i semitones above C4", (name, semitones) => {
  expect(note(name) - note("C4")).toBe(semitones);
}); // biome-ignore format: one glance
