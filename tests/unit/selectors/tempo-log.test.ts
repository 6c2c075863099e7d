import { describe, expect, test } from "vitest";
import type { Take } from "#shared/board/take.ts";
import { BANDS, livelier, tempoPoints, tempoSpan, tempoStory } from "#shared/selectors/tempo-log.ts";
import { aRun } from "#tests/support/ready-song.ts";

const take = (day: number, start: number | null, end: number | null, change: Partial<Take> = {}): Take =>
  aRun(day, { tempoStart: start, tempoEnd: end, ...change });
const points = (...takes: readonly Take[]) => tempoPoints({ takes }, () => "2026-03-04");

test("takes without a tempo and what one plays alone are left out", () => {
  const found = points(
    take(1, 112, 115),
    take(2, null, null),
    take(3, null, 118),
    take(4, 90, 90, { kind: "solo" }),
  );
  expect(found.map(({ start, end }) => [start, end])).toEqual([
    [112, 115],
    [null, 118],
  ]);
});

describe("what the log says", () => {
  test.each([
    [[], 112, ["112 is the target; no take was measured yet."]],
    [[], null, ["No tempo is settled and none was measured."]],
    // 118 lies 6/112 = 5.36 % over.
    [[take(1, 112, 118)], 112, ["The last take ended at 118, 5.4 % over 112: dancers feel it."]],
    [[take(1, 110, null)], 112, ["The last take began at 110, 1.8 % under 112: hardly noticed."]],
    [[take(1, 112, 112)], 112, ["The last take ended right on 112."]],
    [[take(1, 112, 112)], null, ["The last take ended at 112. No target is settled."]],
    [
      [take(1, 100, 101), take(2, 100, 102), take(3, 100, 103)],
      100,
      [
        "The last take ended at 103, 3 % over 100: players feel it.",
        "Each of the last 3 takes got faster: by 1 %, 2 % and 3 %.",
      ],
    ],
    [[take(1, 100, 99), take(2, 100, 98), take(3, 100, 100)], 100, ["The last take ended right on 100."]],
  ])("%#", (takes, target, sentences) => {
    expect(tempoStory(points(...takes), target)).toEqual(sentences);
  });
});

test("an agreed tolerance is told beside it", () => {
  expect(tempoStory(points(take(1, 100, 103)), 100, 4)).toContain("Within the 4 % that are agreed.");
  expect(tempoStory(points(take(1, 100, 103)), 100, 2)).toContain("Outside the 2 % that are agreed.");
});

test("a drawing holds everything measured and the outer band", () => {
  expect(tempoSpan(points(take(1, 112, 131)), 112)).toEqual({ low: 106, high: 132 });
  expect(tempoSpan(points(take(1, 60, 62)), null)).toEqual({ low: 59, high: 63 });
});

test("livelier: percent of the target, in beats per minute", () => {
  expect(livelier(120)).toEqual([
    { percent: 2, bpm: 122.4 },
    // ISMIR 2004 tempo contest and MIREX count a tempo as found within 4 % and 8 %: 124.8 and 129.6 for 120.
    { percent: 4, bpm: 124.8 },
    { percent: 8, bpm: 129.6 },
  ]);
  expect(BANDS).toEqual([2, 4]);
});
