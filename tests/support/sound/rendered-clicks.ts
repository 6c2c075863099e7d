/**
 * Renders a click or a grid as fast as the machine can, through the code that plays it, and hears where its sounds begin.
 * Built into one script and run in a browser page (`tests/e2e/click.e2e.ts`).
 */
import { swellOf } from "#client/sound/click-player.ts";
import { clickSounds } from "#client/sound/click-voices.ts";
import { gridSounds } from "#client/sound/grid-voices.ts";
import { scheduleSteps, swellingGate } from "#client/sound/schedule.ts";
import { type ClickPlace, type ClickPlan, clickTrack } from "#shared/music/click.ts";
import { type GridPlan, gridTrack } from "#shared/music/grid-playback.ts";

/** What a page is asked to render. Times in seconds. */
export interface RenderAsk {
  readonly plan: ClickPlan;
  readonly from: ClickPlace;
  readonly origin: number;
  readonly length: number;
  readonly sampleRate: number;
}

export interface RenderAnswer {
  /** Moments at which a sound begins after a silence, in seconds. */
  readonly onsets: readonly number[];
  /** Largest step from one sample to the next, and the largest sample: what an edge or a pop would raise. */
  readonly steepest: number;
  readonly loudest: number;
  /** Largest sample of the first second. */
  readonly opening: number;
}

/** Where a sound begins: the first sample over the threshold after so many seconds under it. */
const onsetsIn = (samples: Float32Array, sampleRate: number): readonly number[] => {
  const THRESHOLD = 0.002;
  const quiet = Math.round(0.008 * sampleRate);
  const onsets: number[] = [];
  let last = -quiet;
  for (let i = 0; i < samples.length; i++) {
    if (Math.abs(samples[i] ?? 0) < THRESHOLD) continue;
    if (i - last >= quiet) onsets.push(i / sampleRate);
    last = i;
  }
  return onsets;
};

/** Where the sounds of a grid begin, rendered the same way. */
export const renderGrid = async (ask: Omit<RenderAsk, "plan" | "from"> & { readonly plan: GridPlan }) => {
  const { plan, origin, length, sampleRate } = ask;
  const context = new OfflineAudioContext(1, Math.ceil(length * sampleRate), sampleRate);
  const stage = { context, sound: gridSounds(context), into: context.destination };
  scheduleSteps(stage, gridTrack(plan), { index: 0, origin, until: length });
  const samples = (await context.startRendering()).getChannelData(0);
  return onsetsIn(samples, sampleRate);
};

/** Seconds between two turns, and how far ahead of the next one a turn hands over. */
const TURN = 5;
const AHEAD = 1.5;

export const renderClicks = async (ask: RenderAsk): Promise<RenderAnswer> => {
  const { plan, from, origin, length, sampleRate } = ask;
  const context = new OfflineAudioContext(1, Math.ceil(length * sampleRate), sampleRate);
  const track = clickTrack(plan, from);
  const gate = swellingGate(context, origin, swellOf(track));
  gate.connect(context.destination);
  const stage = { context, sound: clickSounds(context), into: gate };
  // Handed over in turns while the rendering stands still, as the player does it while the sound goes on.
  let index = 0;
  const handOver = (until: number): void => {
    index += scheduleSteps(stage, track, { index, origin, until: Math.min(until, length) }).length;
  };
  handOver(TURN + AHEAD);
  for (let turn = TURN; turn < length; turn += TURN)
    void context.suspend(turn).then(() => {
      handOver(turn + TURN + AHEAD);
      return context.resume();
    });
  const samples = (await context.startRendering()).getChannelData(0);
  const loudest = (some: Float32Array): number =>
    some.reduce((most, one) => Math.max(most, Math.abs(one)), 0);
  const steps = samples.map((sample, i) => sample - (samples[i - 1] ?? 0));
  return {
    onsets: onsetsIn(samples, sampleRate),
    steepest: loudest(steps),
    loudest: loudest(samples),
    opening: loudest(samples.subarray(0, sampleRate)),
  };
};

Object.assign(window, { renderClicks, renderGrid });
