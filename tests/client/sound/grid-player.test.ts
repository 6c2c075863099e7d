import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { createGridPlayer, type GridPlayer } from "#client/sound/grid-player.ts";
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
