/**
 * The guide for loud sound against what is published.
 * NIOSH, Criteria for a Recommended Standard: Occupational Noise Exposure, publication 98-126 (1998), section 1.1 and
 * table 1-1. The rows are read from a public copy of the table (engineeringtoolbox.com, "Noise - Exposure Level vs.
 * Duration") and, for 85 to 100 dB(A), from NIOSH's own page; the original print was not at hand.
 */
import { describe, expect, test } from "vitest";
import { dose, eightHourLevel, guideMinutes } from "#shared/music/loudness.ts";

const MINUTE = 60;
const at = (hours: number, minutes: number): number => hours * 60 + minutes;

/** Rows printed to the minute: the formula lies within half of one. */
test.each([
  [80, at(25, 24)], [82, at(16, 0)], [83, at(12, 42)], [84, at(10, 5)], [85, at(8, 0)], [86, at(6, 21)],
  [87, at(5, 2)], [88, at(4, 0)], [90, at(2, 31)], [92, at(1, 35)], [94, at(1, 0)],
])("%s dB(A): %s minutes", (level, minutes) => {
  expect(Math.round(guideMinutes(level))).toBe(minutes);
}); // biome-ignore format: as printed

/** Rows printed to the second: rounded, 124 and 127 cut off. */
test.each([
  [95, 47 * 60 + 37], [96, 37 * 60 + 48], [97, 1800], [98, 23 * 60 + 49], [100, 900], [101, 11 * 60 + 54],
  [103, 7 * 60 + 30], [105, 4 * 60 + 43], [106, 3 * 60 + 45], [109, 113], [110, 89], [112, 56], [115, 28],
  [118, 14], [121, 7], [124, 3], [127, 1],
])("%s dB(A): %s seconds", (level, seconds) => {
  const exact = guideMinutes(level) * MINUTE;
  expect([Math.round(exact), Math.floor(exact)]).toContain(seconds);
}); // biome-ignore format: as printed

test("99 dB(A) is the one row of the copy that its formula does not give: 18:59 printed, 18:54 computed", () => {
  const seconds = Math.round(guideMinutes(99) * MINUTE);
  expect(seconds).toBe(18 * 60 + 54);
  expect(18 * 60 + 59 - seconds).toBe(5);
});

describe("several stretches, by D = 100 · Σ C/T and TWA = 10 · lg(D/100) + 85 of the same section", () => {
  test("two hours at 95 and one at 88 dB(A): 276.98 %, 89.42 dB(A)", () => {
    const share = dose([
      { level: 95, minutes: 120 },
      { level: 88, minutes: 60 },
    ]);
    expect(share * 100).toBeCloseTo(276.98, 2);
    expect(eightHourLevel(share)).toBeCloseTo(89.42, 2);
  });

  test("four hours at 94 dB(A) are four days' worth", () => {
    expect(dose([{ level: 94, minutes: 240 }])).toBeCloseTo(4, 9);
  });

  test.each([
    [1, 85],
    [2, 88.01],
    [4, 91.02],
  ])("%s times the guide is %s dB(A) over eight hours", (share, level) => {
    expect(eightHourLevel(share)).toBeCloseTo(level, 2);
  });
});
