import { describe, expect, test } from "vitest";
import type { Key } from "#shared/music/key.ts";
import { melodyText, melodyWords, readMelody, readTimes, timesText } from "#shared/selectors/melody-draft.ts";
import { readVoice, voiceText, voiceWords } from "#shared/selectors/voice-draft.ts";

const E_FLAT: Key = { letter: "E", accidental: -1, mode: "major" };
const VOICE = { lowest: 53, comfortLow: 55, comfortHigh: 70, highest: 74 };

describe("four notes of a voice", () => {
  test("are read back as they are shown, and four empty ones are nothing said", () => {
    expect(readVoice(voiceText(VOICE))).toEqual({ ok: true, voice: VOICE });
    expect(readVoice(voiceText(null))).toEqual({ ok: true, voice: null });
    expect(voiceWords(VOICE)).toBe("F3 to D5, comfortably G3 to B♭4");
  });

  test.each([
    ["comfortHigh", { comfortHigh: "" }, "Give all four notes, or leave all four empty."],
    ["lowest", { lowest: "H3" }, "is not a note"],
    ["comfortHigh", { comfortHigh: "F3" }, "Put the two in order."],
    ["lowest", { lowest: "A3" }, "between the lowest and the highest note"],
    ["highest", { highest: "A4" }, "between the lowest and the highest note"],
  ] as const)("a fault is told at the note it is in: %s", (note, change, words) => {
    const read = readVoice({ ...voiceText(VOICE), ...change });
    expect(read).toMatchObject({ ok: false, note, error: expect.stringContaining(words) });
  });
});

describe("a melody", () => {
  const text = { low: "Bb3", typical: "F4", high: "C5" };

  test("of three notes is read in the key it is in, and shown in its spelling", () => {
    const read = readMelody(text, E_FLAT);
    expect(read).toEqual({ ok: true, melody: { key: "Eb", low: 58, typical: 65, high: 72 } });
    if (!read.ok || read.melody === null) return;
    expect(melodyText(read.melody)).toEqual({ low: "B♭3", typical: "F4", high: "C5" });
    expect(melodyWords(read.melody)).toBe("B♭3 to C5, mostly around F4, in E♭");
    expect(timesText(read.melody)).toBe("");
  });

  test.each([
    ["high", { high: "" }, "Give all three notes"],
    ["low", { low: "8" }, "is not a note"],
    ["typical", { typical: "D5" }, "Put the three in order."],
  ] as const)("a fault is told at the note it is in: %s", (note, change, words) => {
    expect(readMelody({ ...text, ...change }, E_FLAT)).toMatchObject({
      ok: false,
      note,
      error: expect.stringContaining(words),
    });
  });

  test("of times is read by name or number, in any order, and shown from the lowest up", () => {
    const read = readTimes("C5, 2\n\n65 40,5\nBb3;3\nC5 1\n", E_FLAT);
    expect(read).toEqual({
      ok: true,
      melody: {
        key: "Eb",
        histogram: [
          [58, 3],
          [65, 40.5],
          [72, 3],
        ],
      },
    });
    if (!read.ok || read.melody === null) return;
    expect(timesText(read.melody)).toBe("B♭3 3\nF4 40.5\nC5 3");
    expect(readTimes(timesText(read.melody), E_FLAT)).toEqual(read);
    expect(melodyText(read.melody)).toEqual({ low: "", typical: "", high: "" });
    expect(readTimes(" \n", E_FLAT)).toEqual({ ok: true, melody: null });
  });

  test.each([
    ["C5", "is no note with its time"],
    ["C5 0", "is no note with its time"],
    ["C5 -3", "is no note with its time"],
    ["H5 3", "is not a note"],
    ["200 3", "they are numbered from 0 to 127"],
    [Array.from({ length: 130 }, () => "C5 1").join("\n"), "at most 128 lines"],
  ])("lines that cannot be read are refused in words: %s", (lines, words) => {
    expect(readTimes(lines, E_FLAT)).toMatchObject({
      ok: false,
      note: null,
      error: expect.stringContaining(words),
    });
  });
});
