import { describe, expect, test } from "vitest";
import type { SongFile } from "#shared/board/board.ts";
import {
  clockWords,
  hereWords,
  keepListening,
  NO_LISTENING,
  placeOf,
  readListening,
} from "#shared/selectors/spotting.ts";
import { aSong } from "#tests/support/ready-song.ts";

const base = aSong();
const section = (id: string, bars: number, change: object = {}) => ({
  ...(base.sections[0] as SongFile["sections"][number]),
  id,
  name: id,
  bars,
  ...change,
});
const song = (sections: SongFile["sections"], change: Partial<SongFile["song"]> = {}) => ({
  song: { ...base.song, tempo: 120, metre: "4/4", ...change },
  sections,
});
// 120 beats a minute are two beats a second, so a bar of four lasts two seconds: plain arithmetic.
const plain = song([section("Intro", 4), section("V1", 8), section("Ch1", 8, { repeats: 2 })]);

describe("where the record is", () => {
  test.each([
    [0, 0, "Intro b1 beat 1"],
    [0.49, 0, "Intro b1 beat 1"],
    [0.5, 0, "Intro b1 beat 2"],
    [8, 0, "V1 b1 beat 1"],
    [10.5, 2.5, "V1 b1 beat 1"],
    [24 + 16, 0, "Ch1 b1 beat 1, time 2"],
    [1, 2.5, "Before bar 1"],
    [56, 0, "After the last bar"],
  ])("%d seconds into it, bar 1 at %d: %s", (clock, lead, words) => {
    expect(hereWords(plain, clock, lead)).toBe(words);
  });

  test("a section may have its own metre and tempo", () => {
    const mixed = song([section("A", 2, { metre: "3/4" }), section("B", 4, { tempo: 60 })]);
    expect(hereWords(mixed, 1.5, 0)).toBe("A b2 beat 1");
    expect(hereWords(mixed, 3 + 4, 0)).toBe("B b2 beat 1");
  });

  test("6/8 is counted in dotted crotchets", () => {
    expect(hereWords(song([section("A", 4)], { metre: "6/8" }), 1, 0)).toBe("A b2 beat 1");
  });
});

describe("what is dropped", () => {
  test("gets its section, bar and beat, and its clock to a tenth", () => {
    expect(placeOf(plain, 13.26, 1)).toEqual({ from: { section: "V1", bar: 3, beat: 1 }, clock: 13.3 });
  });

  test("gets its time round where a section is repeated", () => {
    expect(placeOf(plain, 41, 0)).toEqual({ from: { section: "Ch1", bar: 1, beat: 3 }, clock: 41, pass: 2 });
  });

  test("keeps the clock alone without a form, without a tempo and outside the form", () => {
    expect(placeOf(song([]), 5, 0)).toEqual({ clock: 5 });
    expect(placeOf(song(plain.sections, { tempo: null }), 5, 0)).toEqual({ clock: 5 });
    expect(placeOf(plain, 500, 0)).toEqual({ clock: 500 });
  });

  test("is kept on the device word for word, and damaged memory is none", () => {
    const listening = {
      startedAt: 5,
      lead: 2.5,
      spotted: [{ id: "1", clock: 3, chair: null, kind: "rest", text: "Rests" }],
    } as const;
    expect(readListening(keepListening(listening))).toEqual(listening);
    for (const text of [null, "", "{}", "[1]", '{"startedAt":1,"lead":0,"spotted":[{"id":1}]}'])
      expect(readListening(text)).toEqual(NO_LISTENING);
  });
});

test.each([
  [0, "0:00.0"],
  [9.96, "0:09.9"],
  [59.99, "0:59.9"],
  [102.3, "1:42.3"],
  [3600, "60:00.0"],
])("%d seconds read %s", (seconds, words) => {
  expect(clockWords(seconds)).toBe(words);
});
