import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Grid } from "#shared/board/grid.ts";
import { type GridPlan, type GridStep, gridTrack, pairOf, swung } from "#shared/music/grid-playback.ts";
import { parseMetre } from "#shared/music/metre.ts";

const metreOf = (text: string) => {
  const read = parseMetre(text);
  if (!read.ok) throw new Error(read.error);
  return read.value;
};
const bar: Grid = {
  steps: 8,
  perBeat: 2,
  rows: [
    { chair: "dr", voice: "kick", hits: "X...x..." },
    { chair: "bs", hits: "x--.o..x" },
  ],
};
const planOf = (change: Partial<GridPlan> = {}): GridPlan => ({
  bpm: 120,
  metre: metreOf("4/4"),
  swing: { of: "eighths", percent: 50 },
  click: false,
  loop: true,
  rounds: [{ source: "ours", grid: bar }],
  instruments: new Map([["bs", "bass"]]),
  ...change,
});
const steps = (plan: GridPlan, most: number): readonly GridStep[] => {
  const track = gridTrack(plan);
  return Array.from({ length: most }, (_, i) => track.at(i)).flatMap((step) => (step === null ? [] : [step]));
};

test("a bar of eighths at 120: every sound at its time, with its strength and its length", () => {
  const heard = steps(planOf(), 8).flatMap(({ time, sounds }) =>
    sounds.map(({ tone, strength, lasts }) => [time, tone, strength, lasts]),
  );
  expect(heard).toEqual([
    [0, "kick", "strong", 0.25],
    [0, "bass", "plain", 0.75],
    [1, "kick", "plain", 0.25],
    [1, "bass", "soft", 0.25],
    [1.75, "bass", "plain", 0.25],
  ]);
});

test("a click counts a bar in, and marks every beat", () => {
  const clicked = steps(planOf({ click: true }), 12).flatMap(({ time, source, sounds }) =>
    sounds.flatMap(({ tone, strength }) => (tone === "click" ? [[time, source, strength]] : [])),
  );
  expect(clicked).toEqual([
    [0, null, "strong"],
    [0.5, null, "plain"],
    [1, null, "plain"],
    [1.5, null, "plain"],
    [2, "ours", "strong"],
    [2.5, "ours", "plain"],
    [3, "ours", "plain"],
    [3.5, "ours", "plain"],
  ]);
});

test("one after the other, each on its own steps, and over after once round without a loop", () => {
  const triplets: Grid = { steps: 12, perBeat: 3, rows: [{ chair: "bs", hits: "x..........x" }] };
  const rounds = [
    { source: "ours", grid: bar },
    { source: "recorded", grid: triplets },
  ] as const;
  const once = steps(planOf({ rounds, loop: false }), 100);
  expect(once).toHaveLength(20);
  expect(once.map(({ source }) => source)).toEqual([...Array(8).fill("ours"), ...Array(12).fill("recorded")]);
  expect(once.at(-1)?.time).toBeCloseTo(2 + (11 / 3) * 0.5, 12);
  const third = gridTrack(planOf({ rounds })).at(40);
  expect([third?.time, third?.source, third?.step]).toEqual([8, "ours", 0]);
});

// Of each pair the first lasts its percentage: common practice, no published source.
describe("swing", () => {
  test.each([
    [50, [0, 0.25, 0.5, 0.75]],
    [60, [0, 0.3, 0.5, 0.8]],
    [75, [0, 0.375, 0.5, 0.875]],
  ])("of eighths at %i %% moves the second of each pair, never a beat", (percent, times) => {
    const swing = { of: "eighths", percent } as const;
    const swungTimes = steps(planOf({ swing }), 4).map(({ time }) => time);
    swungTimes.forEach((time, i) => {
      expect(time).toBeCloseTo(times[i] ?? Number.NaN, 12);
    });
  });

  test("of sixteenths moves the second of each pair of sixteenths, and stretches the first", () => {
    const grid: Grid = { steps: 16, perBeat: 4, rows: [{ chair: "bs", hits: "xxxxxxxxxxxxxxxx" }] };
    const heard = steps(
      planOf({ swing: { of: "sixteenths", percent: 70 }, rounds: [{ source: "ours", grid }] }),
      4,
    );
    [0, 0.175, 0.25, 0.425].forEach((time, i) => {
      expect(heard[i]?.time).toBeCloseTo(time, 12);
    });
    expect(heard[0]?.sounds[0]?.lasts).toBeCloseTo(0.175, 12);
    expect(heard[1]?.sounds[0]?.lasts).toBeCloseTo(0.075, 12);
  });

  test.each([
    ["eighths", "4/4", 2, 1],
    ["eighths", "4/4", 4, 1],
    ["eighths", "4/4", 3, null],
    ["eighths", "2/2", 4, 0.5],
    ["eighths", "6/8", 3, null],
    ["eighths", "7/8", 2, null],
    ["sixteenths", "4/4", 2, null],
    ["sixteenths", "4/4", 4, 0.5],
    ["sixteenths", "6/8", 6, 1 / 3],
    ["sixteenths", "7/8", 2, 1],
  ] as const)("of %s in %s with %i steps a beat", (of, metre, perBeat, pair) => {
    const found = pairOf(of, metreOf(metre), perBeat);
    if (pair === null) expect(found).toBeNull();
    else expect(found).toBeCloseTo(pair, 12);
  });

  test("keeps order and beats, whatever the share", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 400 }),
        fc.integer({ min: 50, max: 75 }),
        fc.constantFrom(0.5, 1, 1 / 3),
        (step, percent, pair) => {
          const at = (n: number) => swung(n / 12, pair, percent);
          expect(at(step + 1)).toBeGreaterThan(at(step));
          expect(swung(step, pair, percent)).toBeCloseTo(step, 9);
        },
      ),
      { numRuns: 1000 },
    );
  });
});

test("nothing drifts: after an hour a step is where its count says", () => {
  const plan = planOf({ bpm: 93.7, swing: { of: "eighths", percent: 66 } });
  const index = 8 * 1400;
  expect(gridTrack(plan).at(index)?.time).toBeCloseTo((1400 * 4 * 60) / 93.7, 9);
});
