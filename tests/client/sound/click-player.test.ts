import { afterEach, beforeEach, expect, test, vi } from "vitest";
import { type ClickPlayer, createClickPlayer } from "#client/sound/click-player.ts";
import type { ClickPlan } from "#shared/music/click.ts";
import { FakeContext } from "#tests/support/sound/fake-context.ts";

const PLAN: ClickPlan = {
  bpm: 120,
  metre: { groups: [4], unit: 4 },
  perBeat: 1,
  pattern: null,
  bars: null,
  silentEvery: null,
  rise: null,
};
const TOP = { bar: 0, beat: 0 };

let player: ClickPlayer;
beforeEach(() => {
  vi.useFakeTimers();
  vi.stubGlobal("window", globalThis);
  vi.stubGlobal("AudioContext", FakeContext);
  player = createClickPlayer(0.5);
});
afterEach(() => {
  player.close();
  vi.useRealTimers();
  vi.unstubAllGlobals();
});

/** Lets the sound card's clock and the page's run on together. */
const runOn = (seconds: number): void => {
  for (let left = seconds; left > 1e-9; left -= 0.1) {
    FakeContext.last.currentTime += Math.min(0.1, left);
    vi.advanceTimersByTime(Math.min(0.1, left) * 1000);
  }
};
const gaps = (times: readonly number[]): number[] =>
  times.slice(1).map((time, i) => Math.round((time - (times[i] ?? 0)) * 1e6) / 1e6);

test("clicks are handed over more than a second ahead, each once", () => {
  player.start(PLAN, TOP);
  for (let turn = 0; turn < 40; turn++) {
    runOn(0.25);
    const last = FakeContext.last.heardAt().at(-1) ?? 0;
    expect(last - FakeContext.last.currentTime).toBeGreaterThan(0.75);
  }
  expect(new Set(gaps(FakeContext.last.heardAt()))).toEqual(new Set([0.5]));
});

test("a new tempo comes in on the next beat, and nothing sounds twice", () => {
  player.start(PLAN, TOP);
  runOn(2);
  player.change({ ...PLAN, bpm: 150 });
  runOn(2);
  const found = gaps(FakeContext.last.heardAt());
  const turn = found.findIndex((gap) => gap < 0.5);
  expect(found.slice(0, turn).every((gap) => gap === 0.5)).toBe(true);
  expect(found.slice(turn).every((gap) => gap === 0.4)).toBe(true);
  expect(player.heard()).toMatchObject({ bpm: 150 });
});

test("a page that was busy for long leaves out what it missed, and goes on in time", () => {
  player.start(PLAN, TOP);
  const { last } = FakeContext;
  last.currentTime += 6.3;
  vi.advanceTimersByTime(200);
  runOn(1);
  const times = last.heardAt();
  const late = times.filter((at) => at > 5 && at < 9.3);
  expect(late).toEqual([]);
  expect(times.every((at) => Math.abs(((at - (times[0] ?? 0)) / 0.5) % 1) < 1e-9)).toBe(true);
});

test("stopping takes back what has not sounded and fades the rest within 20 ms", () => {
  player.start(PLAN, TOP);
  runOn(1);
  const { currentTime } = FakeContext.last;
  player.stop();
  expect(player.state()).toBe("stopped");
  expect(FakeContext.last.heardAt().every((at) => at <= currentTime)).toBe(true);
  const [value, at] = FakeContext.last.gains.at(-1)?.ramps.at(-1) ?? [1, 0];
  expect(value).toBe(0);
  expect(at - currentTime).toBeCloseTo(0.02, 9);
});

test("a start swells from quiet to full over two bars", () => {
  player.start(PLAN, TOP);
  const swell = FakeContext.last.gains.find(({ ramps }) => ramps.some(([value]) => value === 1));
  expect(swell?.ramps[0]?.[1]).toBeCloseTo(3 + 0.12 + 4, 9);
});

test("when the device takes the sound away it says so, and starts again when asked", () => {
  player.start(PLAN, TOP);
  FakeContext.last.state = "interrupted";
  FakeContext.last.dispatchEvent(new Event("statechange"));
  expect(player.state()).toBe("interrupted");
  FakeContext.last.state = "running";
  player.start(PLAN, TOP);
  expect(player.state()).toBe("playing");
});

test("a browser without sound is told apart", () => {
  vi.stubGlobal("AudioContext", undefined);
  player.start(PLAN, TOP);
  expect(player.state()).toBe("mute");
});

test("a moment of the page is a moment of the click", () => {
  expect(player.moment(performance.now())).toBeNull();
  player.start(PLAN, TOP);
  runOn(1);
  expect(player.moment(performance.now())?.time).toBeCloseTo(1 - 0.12, 6);
  expect(player.moment(performance.now() - 250)?.time).toBeCloseTo(0.75 - 0.12, 6);
});
