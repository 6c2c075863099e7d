import type { Browser, Page } from "playwright-core";
import { build } from "vite";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { type ClickPlan, clickTrack } from "#shared/music/click.ts";
import { type GridPlan, gridTrack } from "#shared/music/grid-playback.ts";
import { parseMetre } from "#shared/music/metre.ts";
import { launchBrowser } from "#tests/support/browser.ts";
import type { RenderAnswer, RenderAsk, renderGrid } from "#tests/support/sound/rendered-clicks.ts";

const MINUTES = 5;
const ORIGIN = 0.12;

let browser: Browser;
let page: Page;

/** The renderer as one script, without a server. */
const rendererScript = async (): Promise<string> => {
  const built = await build({
    configFile: false,
    logLevel: "error",
    build: {
      write: false,
      minify: false,
      lib: { entry: "tests/support/sound/rendered-clicks.ts", formats: ["iife"], name: "rendered" },
    },
  });
  const [first] = Array.isArray(built) ? built : [built];
  const chunk = first !== undefined && "output" in first ? first.output[0] : undefined;
  if (chunk === undefined) throw new Error("The renderer was not built.");
  return chunk.code;
};

beforeAll(async () => {
  browser = await launchBrowser();
  page = await browser.newPage();
  await page.addScriptTag({ content: await rendererScript() });
});
afterAll(() => browser.close());

const planOf = (bpm: number, metre: string, change: Partial<ClickPlan> = {}): ClickPlan => {
  const read = parseMetre(metre);
  if (!read.ok) throw new Error(read.error);
  return {
    bpm,
    metre: read.value,
    perBeat: 1,
    pattern: null,
    bars: null,
    silentEvery: null,
    rise: null,
    ...change,
  };
};

const render = (ask: RenderAsk): Promise<RenderAnswer> =>
  page.evaluate(
    (what) =>
      (window as unknown as { renderClicks: (ask: RenderAsk) => Promise<RenderAnswer> }).renderClicks(what),
    ask,
  );

/** Samples a second: a sixteenth of a millisecond each, and all a click holds. */
const RATE = 16_000;

describe("five minutes of click, in the samples", () => {
  test.each([
    ["93.7 in 4/4, eighths", planOf(93.7, "4/4", { perBeat: 2 })],
    ["217.3 quavers in 3+2+2/8, one bar in four silent", planOf(217.3, "3+2+2/8", { silentEvery: 4 })],
    [
      "71 rising by 4 % every four bars to 141, sixteenths by a grid",
      planOf(71, "4/4", {
        perBeat: 4,
        pattern: "x..x..x.X.o.x...",
        bars: 2,
        rise: { percent: 4, every: 2, to: 141 },
      }),
    ],
  ])("%s: every click within a millisecond of its time, and none drifts", async (_, plan) => {
    const from = { bar: -1, beat: 0 };
    const length = MINUTES * 60;
    const { onsets } = await render({
      plan,
      from,
      origin: ORIGIN,
      length,
      sampleRate: RATE,
    });
    const track = clickTrack(plan, from);
    const exact: number[] = [];
    for (let index = 0; ORIGIN + track.at(index).time < length - 0.05; index++)
      if (track.at(index).strength !== "silent") exact.push(ORIGIN + track.at(index).time);
    const errors = exact.map((time, i) => (onsets[i] ?? Number.POSITIVE_INFINITY) - time);
    const worst = Math.max(...errors.map(Math.abs));
    const [first, last] = [errors.slice(20, 60), errors.slice(-40)].map(
      (some) => some.reduce((sum, error) => sum + error, 0) / some.length,
    );
    expect(onsets.filter((time) => time < length - 0.05)).toHaveLength(exact.length);
    expect(worst).toBeLessThan(0.001);
    expect(Math.abs((last ?? 0) - (first ?? 0))).toBeLessThan(0.0001);
  });

  test("it begins quietly, swells over two bars, and has no edge that would crack", async () => {
    const plan = planOf(120, "4/4", { perBeat: 2 });
    const ask = { plan, from: { bar: -1, beat: 0 }, origin: ORIGIN, length: 10, sampleRate: RATE };
    const { opening, loudest, steepest } = await render(ask);
    expect(opening).toBeLessThan(loudest / 2);
    expect(loudest).toBeLessThan(0.8);
    // The steepest step of the highest tone (1760 Hz) at that height; a cut-off sound would be steeper.
    expect(steepest).toBeLessThan(2 * loudest * Math.sin((Math.PI * 1760) / RATE));
  });
});

test("a minute of a swung kick, in the samples: every one within a millisecond of its time", async () => {
  const ask = {
    plan: {
      bpm: 41.3,
      metre: { groups: [4], unit: 4 },
      swing: { of: "eighths", percent: 63 },
      click: false,
      loop: true,
      rounds: [
        {
          source: "ours",
          grid: { steps: 8, perBeat: 2, rows: [{ chair: "drums", voice: "kick", hits: "Xxx.oxxx" }] },
        },
      ],
    } satisfies Omit<GridPlan, "instruments">,
    origin: ORIGIN,
    length: 60,
    sampleRate: RATE,
  };
  const onsets = await page.evaluate(
    (what) =>
      (window as unknown as { renderGrid: typeof renderGrid }).renderGrid({
        ...what,
        plan: { ...what.plan, instruments: new Map() },
      }),
    ask,
  );
  const track = gridTrack({ ...ask.plan, instruments: new Map() });
  const exact: number[] = [];
  for (let index = 0; ORIGIN + (track.at(index)?.time ?? 0) < ask.length - 0.1; index++) {
    const step = track.at(index);
    if (step !== null && step.sounds.length > 0) exact.push(ORIGIN + step.time);
  }
  expect(onsets.filter((time) => time < ask.length - 0.1)).toHaveLength(exact.length);
  expect(Math.max(...exact.map((time, i) => Math.abs((onsets[i] ?? 0) - time)))).toBeLessThan(0.001);
});
