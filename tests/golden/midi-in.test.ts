import { describe, expect, test } from "vitest";
import { instrumentOf } from "#shared/exchange/score/part-facts.ts";
import { kitVoiceOf } from "#shared/exchange/score/percussion.ts";
import { readQuantity } from "#shared/exchange/score/read-midi.ts";
import { readScore } from "#shared/exchange/score/read-score.ts";
import { songFacts } from "#shared/exchange/score/song-facts.ts";
import { drain, midiOf } from "#tests/support/score/write-midi.ts";

const bytes = (hex: string): Uint8Array =>
  Uint8Array.from(hex.trim().split(/\s+/), (pair) => parseInt(pair, 16));
const read = (file: Uint8Array) => {
  const result = drain(readScore(file));
  if (!result.ok) throw new Error(result.error);
  return result.value;
};

/*
 * MMA/AMEI RP-001, Standard MIDI Files 1.0 (1988, revised 1996), "Conventions": the table of variable-length quantities, from
 * memory, each row checked with the midi-file package.
 */
test.each([
  ["00", 0x00],
  ["40", 0x40],
  ["7F", 0x7f],
  ["81 00", 0x80],
  ["C0 00", 0x2000],
  ["FF 7F", 0x3fff],
  ["81 80 00", 0x4000],
  ["C0 80 00", 0x100000],
  ["FF FF 7F", 0x1fffff],
  ["81 80 80 00", 0x200000],
  ["C0 80 80 00", 0x8000000],
  ["FF FF FF 7F", 0xfffffff],
])("the variable-length quantity %s is %i", (hex, value) => {
  expect(readQuantity(bytes(hex))).toBe(value);
});

describe("the two example files of Standard MIDI Files 1.0 (RP-001, appendix)", () => {
  const FORMAT_0 = bytes(`4D 54 68 64 00 00 00 06 00 00 00 01 00 60 4D 54 72 6B 00 00 00 3B
    00 FF 58 04 04 02 18 08 00 FF 51 03 07 A1 20 00 C0 05 00 C1 2E 00 C2 46
    00 92 30 60 00 3C 60 60 91 43 40 60 90 4C 20 81 40 82 30 40 00 3C 40 00 81 43 40 00 80 4C 40 00 FF 2F 00`);
  const FORMAT_1 = bytes(`4D 54 68 64 00 00 00 06 00 01 00 04 00 60
    4D 54 72 6B 00 00 00 14 00 FF 58 04 04 02 18 08 00 FF 51 03 07 A1 20 83 00 FF 2F 00
    4D 54 72 6B 00 00 00 10 00 C0 05 81 40 90 4C 20 81 40 4C 00 00 FF 2F 00
    4D 54 72 6B 00 00 00 0F 00 C1 2E 60 91 43 40 82 20 43 00 00 FF 2F 00
    4D 54 72 6B 00 00 00 15 00 C2 46 00 92 30 60 00 3C 60 83 00 30 00 00 3C 00 00 FF 2F 00`);
  const notes = (file: Uint8Array) =>
    read(file)
      .parts.flatMap(({ program, notes }) =>
        notes.map(({ bar, beat, length, pitch, force }) => [
          program,
          pitch,
          bar,
          beat,
          length,
          (force ?? 0) * 127,
        ]),
      )
      .sort((a, b) => Number(a[1]) - Number(b[1]));

  test.each([
    ["format 0", FORMAT_0],
    ["format 1", FORMAT_1],
  ])("%s: four notes, 120 a minute, one bar of 4/4, two seconds", (_, file) => {
    expect(notes(file)).toEqual([
      [70, 48, 0, 0, 4, 96],
      [70, 60, 0, 0, 4, 96],
      [46, 67, 0, 1, 3, 64],
      [5, 76, 0, 2, 2, 32],
    ]);
    expect(songFacts(read(file))).toMatchObject({ tempo: 120, metre: "4/4", length: 2 });
    expect(read(file).bars).toHaveLength(1);
  });
});

/* RP-001: sf is −7 (seven flats) to 7, mi 1 is minor. */
test.each([
  [0, false, "C"],
  [0, true, "Am"],
  [-3, false, "Eb"],
  [4, false, "E"],
  [3, true, "F#m"],
])("the key signature %i, minor: %s, is %s", (signature, minor, key) => {
  const tracks = [{ channel: 0, notes: [{ at: 0, length: 4, pitch: 60 }] }];
  expect(songFacts(read(midiOf({ keys: [{ at: 0, signature, minor }], tracks }))).key).toBe(key);
});

/* General MIDI Level 1 (MMA RP-003, 1991): keys of the percussion map on channel 10. */
test.each([
  [35, "kick"],
  [36, "kick"],
  [38, "snare"],
  [40, "snare"],
  [42, "hats"],
  [44, "hats"],
  [46, "hats"],
  [41, "toms"],
  [43, "toms"],
  [45, "toms"],
  [47, "toms"],
  [48, "toms"],
  [50, "toms"],
  [49, "crash"],
  [57, "crash"],
  [51, "ride"],
  [59, "ride"],
  [39, "clap"],
  [56, null],
  [81, null],
])("key %i of the percussion map is %s", (key, voice) => {
  expect(kitVoiceOf(key)).toBe(voice);
});

/* General MIDI Level 1: programs, numbered from 1 in the document and from 0 in the file. */
test.each([
  [1, "keys"],
  [17, "keys"],
  [25, "guitar"],
  [31, "guitar"],
  [33, "bass"],
  [36, "bass"],
  [53, "backing voice"],
  [57, "brass"],
  [66, "brass"],
  [119, "drums"],
  [128, "other"],
])("program %i is played by %s", (program, instrument) => {
  expect(instrumentOf({ name: "", program: program - 1, percussion: false })).toBe(instrument);
});
