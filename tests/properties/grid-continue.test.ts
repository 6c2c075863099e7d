import fc from "fast-check";
import { expect, test } from "vitest";
import type { Grid } from "#shared/board/grid.ts";
import { continued, type GridRun, gridRun, playsTheSame } from "#shared/music/grid-continue.ts";
import type { GridPlan, GridStep } from "#shared/music/grid-playback.ts";
import { laws } from "#tests/support/fuzz.ts";

const GRID: Grid = { steps: 8, perBeat: 2, rows: [{ chair: "dr", voice: "kick", hits: "X...x..." }] };
const OTHER: Grid = { steps: 12, perBeat: 3, rows: [{ chair: "dr", voice: "kick", hits: "x..x..x..x.." }] };
const rounds: GridPlan["rounds"] = [
  { source: "ours", grid: GRID },
  { source: "recorded", grid: OTHER },
];
const CYCLE = GRID.steps + OTHER.steps;
const plan: fc.Arbitrary<GridPlan> = fc.record({
  bpm: fc.integer({ min: 20, max: 400 }),
  metre: fc.constant({ groups: [4], unit: 4 }),
  swing: fc.record({
    of: fc.constantFrom("eighths" as const, "sixteenths" as const),
    percent: fc.integer({ min: 50, max: 75 }),
  }),
  click: fc.boolean(),
  loop: fc.boolean(),
  rounds: fc.constant(rounds),
  instruments: fc.constant(new Map()),
});
const place = (step: GridStep | null) => (step === null ? null : [step.source, step.step]);
/** The step of a run that sounds at a time or next after it. */
const nextAt = ({ track }: GridRun, seconds: number): GridStep | null => {
  for (let i = 0; ; i += 1) {
    const step = track.at(i);
    if (step === null || step.time >= seconds) return step;
  }
};

test("another tempo or swing takes over at the very next step, at its time, and goes on in the same order", () => {
  fc.assert(
    fc.property(plan, plan, fc.double({ min: 0, max: 8, noNaN: true }), (first, change, soonest) => {
      const before = gridRun({ ...first, loop: true });
      const after = { ...before.plan, bpm: change.bpm, swing: change.swing };
      const { run, time } = continued(before, after, soonest);
      const next = nextAt(before, soonest);
      expect(time).toBe(next?.time);
      expect(run.track.at(0)?.time).toBe(0);
      const order = Array.from({ length: CYCLE + 4 }, (_, i) => place(run.track.at(i)));
      const from = Array.from({ length: 2000 }, (_, i) => i).find(
        (i) => before.track.at(i)?.time === next?.time,
      );
      expect(order).toEqual(
        Array.from({ length: CYCLE + 4 }, (_, i) => place(before.track.at((from ?? 0) + i))),
      );
    }),
    laws(200),
  );
});

test("times of a run that took over ascend, whatever was changed and however often", () => {
  fc.assert(
    fc.property(
      plan,
      fc.array(fc.tuple(plan, fc.double({ min: 0, max: 3, noNaN: true })), { maxLength: 4 }),
      (first, changes) => {
        let run = gridRun(first);
        for (const [next, soonest] of changes) {
          const taken = continued(run, next, soonest);
          expect(taken.time).toBeGreaterThanOrEqual(soonest);
          run = taken.run;
        }
        const times = Array.from({ length: 2 * CYCLE }, (_, i) => run.track.at(i)?.time ?? null);
        const said = times.filter((time) => time !== null);
        expect(said).toEqual([...said].sort((a, b) => a - b));
        // What ends, ends: after the last step none comes.
        expect(times.slice(said.length).every((time) => time === null)).toBe(true);
      },
    ),
    laws(200),
  );
});

test("a round that is not repeated any more is played to its end, and one that was over begins again once it goes round", () => {
  const once: GridPlan = {
    bpm: 120,
    metre: { groups: [4], unit: 4 },
    swing: { of: "eighths", percent: 50 },
    click: false,
    loop: false,
    rounds: [{ source: "ours", grid: GRID }],
    instruments: new Map(),
  };
  // Eight eighths at 120 last 2 s: at 5.1 s the fifth of the third time round is next (plain arithmetic).
  const { run, time } = continued(gridRun({ ...once, loop: true }), once, 5.1);
  expect(time).toBe(5.25);
  expect([0, 1, 2, 3].map((i) => run.track.at(i)?.step ?? null)).toEqual([5, 6, 7, null]);
  expect(continued(gridRun(once), once, 1.9).run.track.at(0)).toBeNull();
  expect(continued(gridRun(once), { ...once, loop: true }, 1.9).run.track.at(0)?.step).toBe(0);
  // The click in front is not counted again, and what was being counted in begins.
  const clicked = { ...once, click: true };
  expect(continued(gridRun(once), clicked, 0.6).run.track.at(0)).toMatchObject({ source: "ours", step: 3 });
  expect(continued(gridRun(clicked), once, 0.6).run.track.at(0)).toMatchObject({ source: "ours", step: 0 });
  expect(continued(gridRun(clicked), { ...clicked, bpm: 60 }, 0.6).run.track.at(0)).toMatchObject({
    source: null,
    step: 2,
  });
});

test("other grids are another piece", () => {
  const base = { bpm: 120, rounds } as unknown as GridPlan;
  expect(playsTheSame(base, { ...base, bpm: 60 })).toBe(true);
  expect(playsTheSame(base, { ...base, rounds: rounds.slice(0, 1) })).toBe(false);
  expect(playsTheSame(base, { ...base, rounds: [...rounds].reverse() })).toBe(false);
});
