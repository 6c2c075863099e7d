/**
 * A click as an exact schedule. Governing rule: the time of every click is worked out from how many beats lie before
 * it, never by adding to the time of the last one, so that nothing builds up however long it runs.
 */
import { beatsPerBar, isCompound, type Metre } from "./metre.ts";

/** The tempo never rises by more than this many percent at a time: common practice for hands, no published source. */
export const RISE_MOST = 5;

/** How loud a step is, quietest first: first = the first beat of a bar, strong = a group's first beat or an accent. */
export type ClickStrength = "silent" | "soft" | "plain" | "strong" | "first";

/** The tempo goes up by `percent` each time the loop has come round `every` times, until it is `to`. */
export interface TempoRise {
  readonly percent: number;
  readonly every: number;
  /** Counted beats per minute. */
  readonly to: number;
}

export interface ClickPlan {
  /** Counted beats per minute: in 6/8 dotted crotchets, in 3+2+2/8 quavers. */
  readonly bpm: number;
  readonly metre: Metre;
  /** Steps heard in one counted beat; 1 = the beats alone. */
  readonly perBeat: number;
  /** One of `.` rest, `x` hit, `X` accent, `o` ghost per step, over and over; null = every step. */
  readonly pattern: string | null;
  /** Bars until it starts again; null = it goes on. */
  readonly bars: number | null;
  /** The last of so many bars is silent; null = none is. */
  readonly silentEvery: number | null;
  readonly rise: TempoRise | null;
}

/** A beat from which a click starts. Bars count from 0 where the music begins; a count-in lies in front, from -1 back. */
export interface ClickPlace {
  readonly bar: number;
  readonly beat: number;
}

export interface Click {
  /** Seconds from the start. */
  readonly time: number;
  /** Bars since the music began, 0 for the first; negative while it is counted in. */
  readonly bar: number;
  /** How often the loop has come round, 0 at first; 0 without a loop. */
  readonly loop: number;
  /** Beat of the bar, and step of the bar, both from 0. */
  readonly beat: number;
  readonly step: number;
  readonly strength: ClickStrength;
  /** The whole bar is silent, to test the time. */
  readonly muted: boolean;
  /** Tempo from here on. */
  readonly bpm: number;
}

export interface ClickTrack {
  /** The click after so many steps. Silent steps are among them, so that a screen can count on. */
  readonly at: (index: number) => Click;
  /** How many steps, with a fraction, lie before a moment (s). */
  readonly stepsAt: (time: number) => number;
  readonly plan: ClickPlan;
}

/** A stretch at one tempo: the step and the moment it begins at, counted from the start. */
interface Stretch {
  readonly step: number;
  readonly time: number;
  readonly bpm: number;
}

/** Lays a click out from a place. Nothing is computed before it is asked for. */
export const clickTrack = (plan: ClickPlan, from: ClickPlace): ClickTrack => {
  const { perBeat } = plan;
  const beats = beatsPerBar(plan.metre);
  const stepsPerBar = beats * perBeat;
  const start = (from.bar * beats + from.beat) * perBeat;
  const stretches = stretchesOf(plan, from, start, stepsPerBar);
  const loudness = loudnessOf(plan, beats);
  const isMuted = (bar: number): boolean =>
    plan.silentEvery !== null && bar >= 0 && bar % plan.silentEvery === plan.silentEvery - 1;
  const within = (is: (stretch: Stretch) => boolean): Stretch =>
    stretches.findLast(is) ?? { step: 0, time: 0, bpm: plan.bpm };

  const at = (index: number): Click => {
    const stretch = within(({ step }) => step <= index);
    const bar = Math.floor((start + index) / stepsPerBar);
    const step = start + index - bar * stepsPerBar;
    return {
      time: stretch.time + ((index - stretch.step) * 60) / (stretch.bpm * perBeat),
      bar,
      loop: plan.bars === null || bar < 0 ? 0 : Math.floor(bar / plan.bars),
      beat: Math.floor(step / perBeat),
      step,
      strength: isMuted(bar) ? "silent" : loudness(bar, step),
      muted: isMuted(bar),
      bpm: stretch.bpm,
    };
  };
  const stepsAt = (time: number): number => {
    const stretch = within((one) => one.time <= time);
    return stretch.step + ((time - stretch.time) * stretch.bpm * perBeat) / 60;
  };
  return { at, stepsAt, plan };
};

const stretchesOf = (
  { bpm, perBeat, bars, rise }: ClickPlan,
  from: ClickPlace,
  start: number,
  stepsPerBar: number,
): readonly Stretch[] => {
  const first: Stretch = { step: 0, time: 0, bpm };
  if (rise === null || bars === null || !(rise.percent > 0) || rise.to <= bpm) return [first];
  const factor = 1 + Math.min(rise.percent, RISE_MOST) / 100;
  const begun = Math.max(0, Math.floor(from.bar / bars));
  const stretches = [first];
  for (let last = first, k = 1; last.bpm < rise.to; k++) {
    const step = (begun + k * rise.every) * bars * stepsPerBar - start;
    const time = last.time + ((step - last.step) * 60) / (last.bpm * perBeat);
    last = { step, time, bpm: Math.min(rise.to, bpm * factor ** k) };
    stretches.push(last);
  }
  return stretches;
};

const HITS: Readonly<Record<string, ClickStrength>> = { x: "plain", X: "strong", o: "soft" };

/** How loud each step of each bar is that is not silent as a whole. */
const loudnessOf = (
  { metre, perBeat, pattern, bars }: ClickPlan,
  beats: number,
): ((bar: number, step: number) => ClickStrength) => {
  const groups = groupStarts(metre);
  const onBeat = (beat: number): ClickStrength =>
    beat === 0 ? "first" : groups.has(beat) ? "strong" : "plain";
  return (bar, step) => {
    const beat = step / perBeat;
    const isBeat = Number.isInteger(beat);
    // The count-in is beats alone, whatever comes after it.
    if (bar < 0) return isBeat ? onBeat(beat) : "silent";
    if (pattern === null || pattern === "") return isBeat ? onBeat(beat) : "soft";
    const inLoop = bars === null ? bar : bar % bars;
    const hit = HITS[pattern[(inLoop * beats * perBeat + step) % pattern.length] ?? "."];
    if (step === 0) return "first";
    return hit ?? (isBeat ? "soft" : "silent");
  };
};

/** The beats on which a group of the metre begins, the first one included. */
const groupStarts = (metre: Metre): ReadonlySet<number> => {
  const starts = new Set([0]);
  if (isCompound(metre)) return starts;
  let beat = 0;
  for (const units of metre.groups) {
    starts.add(beat);
    beat += units;
  }
  return starts;
};
