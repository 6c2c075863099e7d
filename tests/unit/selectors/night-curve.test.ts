import { describe, expect, test } from "vitest";
import { endOfDay } from "#shared/lib/calendar.ts";
import type { ScoreInput } from "#shared/readiness/score-input.ts";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { curveDays, nightCurve } from "#shared/selectors/night-curve.ts";
import { aReadyInput } from "#tests/support/night-input.ts";

describe("the days of the curve", () => {
  test.each([
    ["2026-03-14", "2026-03-14", ["2026-03-14"]],
    ["2026-03-20", "2026-03-14", ["2026-03-14"]],
    ["2026-03-12", "2026-03-14", ["2026-03-12", "2026-03-13", "2026-03-14"]],
  ])("from %s to %s", (today, gig, days) => {
    expect(curveDays(today, gig)).toEqual(days);
  });

  test("are at most fifteen, the first and the last among them", () => {
    const days = curveDays("2026-01-01", "2026-12-31");
    expect(days).toHaveLength(15);
    expect([days[0], days.at(-1)]).toEqual(["2026-01-01", "2026-12-31"]);
  });
});

describe("the curve", () => {
  const input: ScoreInput = aReadyInput();
  const source = {
    inputs: [input],
    today: "2026-03-05",
    gigDay: "2026-03-14",
    timeZone: "UTC",
    rehearsals: [],
  };

  test("falls with time where nothing happens, and is the score's own at each day", () => {
    const points = [...nightCurve(source)];
    expect(points).toHaveLength(10);
    for (const [i, point] of points.entries()) {
      const t = endOfDay(point.day, "UTC");
      expect(point.untouched).toBe(scoreSong({ ...input, t }).score);
      expect(point.planned).toBe(point.untouched);
      if (i > 0) expect(point.untouched).toBeLessThanOrEqual(points[i - 1]?.untouched ?? 0);
    }
  });

  test("rises with an evening's plan from its day on, and never falls below what happens without", () => {
    const song = input.file.song.id;
    const plan = [{ song, runs: 2 as const, cards: [], section: null, minutes: 9 }];
    const evening = {
      day: "2026-03-10", place: "", start: "", booked: 120, setUp: 15, pause: 10, packDown: 10, gig: null,
      startedAt: null, endedAt: null, plan, pins: new Map(), attendance: new Map(), standIns: new Map(),
    }; // biome-ignore format: one evening
    const points = [...nightCurve({ ...source, rehearsals: [evening] })];
    for (const point of points) {
      if (point.day < "2026-03-10") expect(point.planned).toBe(point.untouched);
      else expect(point.planned).toBeGreaterThan(point.untouched);
    }
  });

  test("a gig without songs has none", () => {
    expect([...nightCurve({ ...source, inputs: [] })]).toEqual([]);
  });
});
