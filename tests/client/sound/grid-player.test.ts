import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { createGridPlayer, type GridPlayer } from "#client/sound/grid-player.ts";
import type { Grid } from "#shared/board/grid.ts";
import type { GridPlan } from "#shared/music/grid-playback.ts";
import { FakeContext } from "#tests/support/sound/fake-context.ts";

const PLAN: GridPlan = {
  bpm: 120,
  metre: { groups: [4], unit: 4 },
  swing: { of: "eighths", percent: 50 },
  click: false,
  loop: false,
  rounds: [
    {
      source: "ours",
      grid: {
        steps: 8,
        perBeat: 2,
        rows: [
          { chair: "dr", voice: "kick", hits: "x...x..." },
          { chair: "bs", hits: "...x--.." },
        ],
      },
    },
  ],
  instruments: new Map([["bs", "bass"]]),
};

let player: GridPlayer;
beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal("window", globalThis);
  vi.stubGlobal("AudioContext", FakeContext);
  player = createGridPlayer(0.5);
});
afterEach(() => {
  player.close();
  vi.unstubAllGlobals();
  vi.useRealTimers();
});

/** Moves the sound card and the page on together. */
const pass = (seconds: number): void => {
  for (let gone = 0; gone < seconds; gone += 0.2) {
    FakeContext.last.currentTime += 0.2;
    vi.advanceTimersByTime(200);
  }
};

test("once round, every sound is handed over at its time, and the player stops by itself", () => {
  player.start(PLAN);
  const origin = FakeContext.last.currentTime + 0.12;
  pass(2);
  expect(player.state()).toBe("playing");
  const starts = FakeContext.last.sounds.map(({ at }) => Math.round((at - origin) * 1000));
  expect(starts).toEqual([0, 750, 1000]);
  pass(2);
  expect(player.state()).toBe("stopped");
});

test("round and round it goes on until it is stopped, and nothing sounds after that", () => {
  player.start({ ...PLAN, loop: true });
  pass(6);
  expect(player.state()).toBe("playing");
  player.stop();
  const now = FakeContext.last.currentTime;
  expect(player.state()).toBe("stopped");
  const later = FakeContext.last.sounds.filter(({ at }) => at > now);
  expect(later.length).toBeGreaterThan(0);
  expect(later.every(({ stopped }) => stopped)).toBe(true);
});

/** The kick alone: what it hands over has no end of its own. */
const KICK: GridPlan = {
  ...PLAN,
  loop: true,
  rounds: [
    {
      source: "ours",
      grid: { steps: 8, perBeat: 2, rows: [{ chair: "dr", voice: "kick", hits: "x..xx..." }] },
    },
  ],
};

/** Moments from the start of what will sound, ms. */
const heard = (origin: number): readonly number[] =>
  FakeContext.last.heardAt().map((at) => Math.round((at - origin) * 1000));

test("another tempo while it plays goes on from the next step, and nothing sounds twice or is left out", () => {
  player.start(KICK);
  const origin = FakeContext.last.currentTime + 0.12;
  pass(1);
  // 0.88 s are heard and 60 ms more are left alone: the step at 1 s is the first at half the tempo.
  player.change({ ...KICK, bpm: 60 });
  pass(4);
  // Kick on steps 0, 3 and 4: 250 ms each up to step 4, 500 ms from there on.
  expect(heard(origin).slice(0, 6)).toEqual([0, 750, 1000, 3000, 4500, 5000]);
  expect(player.state()).toBe("playing");
});

test("other grids begin from their beginning, and a change while it is silent starts nothing", () => {
  player.change(PLAN);
  expect(player.state()).toBe("stopped");
  player.start(KICK);
  pass(1);
  const origin = FakeContext.last.currentTime + 0.12;
  const other: Grid = { steps: 4, perBeat: 2, rows: [{ chair: "dr", voice: "snare", hits: "x..." }] };
  player.change({ ...KICK, loop: false, rounds: [{ source: "recorded", grid: other }] });
  pass(0.4);
  // The kick's next step, half a second on, is taken back.
  expect(heard(origin).filter((at) => at >= 0)).toEqual([0]);
});
