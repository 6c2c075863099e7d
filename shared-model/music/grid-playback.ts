/**
 * A grid as an exact schedule of sounds. As for a click, every time is worked out from how much lies before it, never by
 * adding to the time of the last one.
 */
import type { Instrument } from "../board/band.ts";
import type { Grid, GridRow, GridVoice } from "../board/grid.ts";
import { hitAt } from "../board/grid-reading.ts";
import type { Id } from "../board/ids.ts";
import { isStroke, lengthAt } from "./grid-words.ts";
import { beatsPerBar, isCompound, type Metre } from "./metre.ts";

export const SWINGS = ["eighths", "sixteenths"] as const;

/** Of two such notes the first lasts `percent` of both: 50 = straight, 67 near a triplet, 75 = dotted. */
export interface Swing {
  readonly of: (typeof SWINGS)[number];
  readonly percent: number;
}

export const SWING_LEAST = 50;
export const SWING_MOST = 75;

export type GridSource = "ours" | "recorded";

/** What makes a sound: a beat of the click, a voice of the kit, or an instrument on one note of its own. */
export type GridTone = "click" | GridVoice | Exclude<Instrument, "drums">;

export interface GridPlan {
  /** Counted beats per minute. */
  readonly bpm: number;
  readonly metre: Metre;
  readonly swing: Swing;
  /** With a click on every beat, and a bar of it in front. */
  readonly click: boolean;
  /** From the beginning again after the last round. */
  readonly loop: boolean;
  /** What is played one after the other; at least one. */
  readonly rounds: readonly { readonly source: GridSource; readonly grid: Grid }[];
  /** Instruments by chair. */
  readonly instruments: ReadonlyMap<Id, Instrument>;
}

export interface GridSound {
  readonly tone: GridTone;
  readonly strength: "soft" | "plain" | "strong";
  /** Seconds until its note ends. */
  readonly lasts: number;
}

export interface GridStep {
  /** Seconds from the start. */
  readonly time: number;
  /** Null while it is counted in. */
  readonly source: GridSource | null;
  /** Step of its grid, or beat of the count-in. */
  readonly step: number;
  readonly sounds: readonly GridSound[];
}

export interface GridTrack {
  /** The step after so many; null when it is over. */
  readonly at: (index: number) => GridStep | null;
  /** Seconds of one bar. */
  readonly bar: number;
}

/** Beats that two notes of the swing last together; null where such a pair does not fill whole beats in whole steps. */
export const pairOf = (of: Swing["of"], metre: Metre, perBeat: number): number | null => {
  const quarter = metre.unit / 4 / (isCompound(metre) ? 3 : 1);
  const pair = of === "eighths" ? quarter : quarter / 2;
  const steps = Math.round(pair * perBeat * 1e6) / 1e6;
  const inBeat = Math.round(1e6 / pair) / 1e6;
  return Number.isInteger(inBeat) && steps % 2 === 0 ? pair : null;
};

/**
 * Where a moment of a straight bar lies in a swung one, both in beats: each pair's first half is stretched to its share,
 * the second pressed into the rest. Common practice, no published source.
 */
export const swung = (beats: number, pair: number, percent: number): number => {
  const share = Math.min(SWING_MOST, Math.max(SWING_LEAST, percent)) / 100;
  const whole = Math.floor(beats / pair + 1e-9);
  const within = Math.max(0, beats / pair - whole);
  const moved = within < 0.5 ? 2 * within * share : share + (2 * within - 1) * (1 - share);
  return (whole + moved) * pair;
};

const STRENGTHS: Readonly<Record<string, GridSound["strength"]>> = { x: "plain", X: "strong", o: "soft" };

/** Lays a grid out. Nothing is computed before it is asked for. */
export const gridTrack = (plan: GridPlan): GridTrack => {
  const { bpm, metre, rounds, loop } = plan;
  const beat = 60 / bpm;
  const perBar = beatsPerBar(metre);
  const countIn = plan.click ? perBar : 0;
  const laid = rounds.map(({ grid }) => ({ steps: grid.steps, beats: grid.steps / grid.perBeat }));
  const cycle = laid.reduce((sum, { steps }) => sum + steps, 0);
  const cycleBeats = laid.reduce((sum, { beats }) => sum + beats, 0);

  const counted = (index: number): GridStep => ({
    time: index * beat,
    source: null,
    step: index,
    sounds: [clickAt(index, beat)],
  });
  const clickAt = (at: number, lasts: number): GridSound => ({
    tone: "click",
    strength: at % perBar === 0 ? "strong" : "plain",
    lasts,
  });

  const at = (index: number): GridStep | null => {
    if (index < countIn) return counted(index);
    const gone = Math.floor((index - countIn) / cycle);
    if (gone > 0 && !loop) return null;
    let step = (index - countIn) % cycle;
    let before = countIn + gone * cycleBeats;
    for (const [i, { source, grid }] of rounds.entries()) {
      const { steps, beats } = laid[i] ?? { steps: 0, beats: 0 };
      if (step < steps) return stepOf(grid, source, step, before);
      step -= steps;
      before += beats;
    }
    return null;
  };

  const stepOf = (grid: Grid, source: GridSource, step: number, before: number): GridStep => {
    const pair = pairOf(plan.swing.of, metre, grid.perBeat);
    const placed = (steps: number): number =>
      pair === null ? steps / grid.perBeat : swung(steps / grid.perBeat, pair, plan.swing.percent);
    const sounds = grid.rows.flatMap((row): readonly GridSound[] => {
      const hit = hitAt(row, step);
      if (!isStroke(hit)) return [];
      const lasts = (placed(step + lengthAt(row, step)) - placed(step)) * beat;
      return [{ tone: toneOf(row, plan.instruments), strength: STRENGTHS[hit] ?? "plain", lasts }];
    });
    const onBeat = plan.click && step % grid.perBeat === 0;
    return {
      time: (before + placed(step)) * beat,
      source,
      step,
      sounds: onBeat ? [clickAt(step / grid.perBeat, beat), ...sounds] : sounds,
    };
  };

  return { at, bar: perBar * beat };
};

/** A drummer's row without a voice sounds as a kick. */
const toneOf = ({ voice, chair }: GridRow, instruments: GridPlan["instruments"]): GridTone => {
  const instrument = instruments.get(chair) ?? "other";
  return voice ?? (instrument === "drums" ? "kick" : instrument);
};
