/** The bar that comes back in a section, as steps: which steps are struck in most of its bars. */

import { GRID_VOICES, type GridVoice, STEPS_MOST } from "../../board/grid.ts";
import { beatsPerBar, isCompound, parseMetre } from "../../music/metre.ts";
import { CYMBAL_WORDS, type CymbalWord, cymbalOf, kitVoiceOf } from "./percussion.ts";
import { quartersIn, type ScoreBar, type ScoreFacts, type ScoreNote, type ScorePart } from "./score-facts.ts";
import type { ScoreSection } from "./section-facts.ts";

export interface PatternRow {
  /** Null = the part as a whole. */
  readonly voice: GridVoice | null;
  /** `.` rest, `x` hit, `X` accent, `o` ghost, `-` goes on; drums do not go on. */
  readonly hits: string;
}

export interface Pattern {
  readonly steps: number;
  readonly perBeat: number;
  readonly rows: readonly PatternRow[];
  /** Bars of the section that are exactly like it, and bars there are. */
  readonly alike: number;
  readonly bars: number;
}

/** A step is part of the pattern when it is struck in at least this share of the bars. */
const USUAL = 0.5;
/** Hits this much above or below the voice's middle are accents and ghosts; common practice, no published source. */
const ACCENT = 1.2;
const GHOST = 0.6;
/** Mean distance from the steps, in beats, up to which a coarser division fits. */
const FITS = 0.02;

interface Raster {
  readonly perBeat: number;
  readonly steps: number;
  /** Quarter notes. */
  readonly step: number;
}

/** The division of the beat that the notes lie on: sixteenths or triplets, in compound metres quavers or their halves. */
export const rasterOf = (metre: string, beats: readonly number[]): Raster | null => {
  const read = parseMetre(metre);
  if (!read.ok) return null;
  const counted = beatsPerBar(read.value);
  const units = read.value.groups.reduce((sum, n) => sum + n, 0);
  const beat = quartersIn(units, read.value.unit) / counted;
  const errorOf = (perBeat: number): number =>
    beats.reduce((sum, at) => {
      const steps = (at / beat) * perBeat;
      return sum + Math.abs(steps - Math.round(steps)) / perBeat;
    }, 0) / Math.max(1, beats.length);
  const [usual, other] = isCompound(read.value) ? [3, 6] : [4, 3];
  const compound = isCompound(read.value);
  // Anything lies near a finer division, so the finer one must be needed; of two like ones the nearer counts.
  const perBeat = compound
    ? errorOf(usual) <= FITS
      ? usual
      : other
    : errorOf(other) < errorOf(usual) - 1e-9
      ? other
      : usual;
  const steps = Math.round(counted * perBeat);
  return steps > STEPS_MOST || steps < 4 ? null : { perBeat, steps, step: beat / perBeat };
};

const isFull = ({ length, metre }: ScoreBar): boolean => {
  const read = parseMetre(metre);
  if (!read.ok) return false;
  const units = read.value.groups.reduce((sum, n) => sum + n, 0);
  return Math.abs(length - quartersIn(units, read.value.unit)) < 1e-3;
};

const middleOf = (numbers: readonly number[]): number =>
  [...numbers].sort((a, b) => a - b)[numbers.length >> 1] ?? 0;

/** Notes by bar, for looking at sections one after the other. */
export const byBar = (facts: ScoreFacts, notes: readonly ScoreNote[]): readonly (readonly ScoreNote[])[] => {
  const bars: ScoreNote[][] = facts.bars.map(() => []);
  for (const note of notes) bars[note.bar]?.push(note);
  return bars;
};

const rowOf = (
  voice: GridVoice | null,
  bars: readonly (readonly ScoreNote[])[],
  { steps, step }: Raster,
  middle: number,
): { readonly row: PatternRow; readonly strokes: readonly string[] } => {
  const counts = Array<number>(steps).fill(0);
  const forces = Array<number>(steps).fill(0);
  const strokes = bars.map((notes) => {
    const struck = new Map<number, number>();
    for (const { beat, force } of notes) {
      const at = Math.round(beat / step);
      if (at < steps) struck.set(at, Math.max(struck.get(at) ?? 0, force ?? middle));
    }
    for (const [at, force] of struck) {
      counts[at] = (counts[at] ?? 0) + 1;
      forces[at] = (forces[at] ?? 0) + force;
    }
    return Array.from({ length: steps }, (_, at) => (struck.has(at) ? "x" : ".")).join("");
  });
  const hits = counts.map((count, at) => {
    if (count === 0 || count < USUAL * bars.length) return ".";
    const force = (forces[at] ?? 0) / count;
    if (middle === 0) return "x";
    return force >= ACCENT * middle ? "X" : force <= GHOST * middle ? "o" : "x";
  });
  const held = voice === null ? withHeld(hits, lengthsOf(bars, step, steps)) : hits;
  return { row: { voice, hits: held.join("") }, strokes };
};

/** Usual length, in steps, of what begins at each step; a step that is never struck has none. */
const lengthsOf = (
  bars: readonly (readonly ScoreNote[])[],
  step: number,
  steps: number,
): readonly number[] => {
  const lengths = Array.from({ length: steps }, (): number[] => []);
  for (const { beat, length } of bars.flat())
    lengths[Math.round(beat / step)]?.push(Math.round(length / step));
  return lengths.map(middleOf);
};

/** Notes go on until the next one, or the end of the bar. */
const withHeld = (hits: readonly string[], lengths: readonly number[]): readonly string[] => {
  let until = 0;
  return hits.map((hit, at) => {
    if (hit !== ".") until = at + (lengths[at] ?? 1);
    return hit === "." && at < until ? "-" : hit;
  });
};

/** Strokes alone, however hard and long. */
const plain = (hits: string): string => hits.replace(/[Xo]/g, "x").replaceAll("-", ".");

/**
 * The pattern of one section, of the bars in its usual metre; null where nothing comes back or the bar has too many steps.
 * `voices`: the kit apart, or one row for all.
 */
export const patternOf = (
  facts: ScoreFacts,
  section: ScoreSection,
  bars: readonly (readonly ScoreNote[])[],
  voices: boolean,
): Pattern | null => {
  const own = bars.slice(section.from, section.from + section.bars).filter((_, i) => {
    const bar = facts.bars[section.from + i];
    return bar !== undefined && bar.metre === section.metre && isFull(bar);
  });
  const notes = own.flat();
  const raster = rasterOf(
    section.metre,
    notes.map(({ beat }) => beat),
  );
  if (raster === null || own.length === 0 || notes.length === 0) return null;
  const kinds: readonly (GridVoice | null)[] = voices
    ? GRID_VOICES.filter((voice) => voice !== "crash")
    : [null];
  const rows = kinds.map((voice) => {
    const mine = own.map((bar) =>
      voice === null ? bar : bar.filter(({ pitch }) => kitVoiceOf(pitch) === voice),
    );
    return rowOf(
      voice,
      mine,
      raster,
      middleOf(mine.flat().flatMap(({ force }) => (force === null ? [] : [force]))),
    );
  });
  const kept = rows.filter(({ row }) => /[xXo]/.test(row.hits));
  if (kept.length === 0) return null;
  const alike = own.filter((_, bar) =>
    rows.every(({ row, strokes }) => strokes[bar] === plain(row.hits)),
  ).length;
  return {
    steps: raster.steps,
    perBeat: raster.perBeat,
    rows: kept.map(({ row }) => row),
    alike,
    bars: own.length,
  };
};

/** Strokes a bar from which something keeps the time; common practice, no published source. */
const KEEPS_TIME = 2;

/** What keeps the time in each section, the most struck; `none` where the kit plays without, null where it rests. */
export const cymbalsOf = (
  form: readonly ScoreSection[],
  { notes }: Pick<ScorePart, "notes">,
): readonly (CymbalWord | null)[] =>
  form.map(({ from, bars }) => {
    const here = notes.filter(({ bar }) => bar >= from && bar < from + bars);
    if (here.length === 0) return null;
    const counts = CYMBAL_WORDS.map((word) => here.filter(({ pitch }) => cymbalOf(pitch) === word).length);
    const most = Math.max(...counts);
    return most < KEEPS_TIME * bars ? "none" : (CYMBAL_WORDS[counts.indexOf(most)] ?? "none");
  });

/** Crash cymbals in each section. */
export const crashesOf = (form: readonly ScoreSection[], parts: readonly ScorePart[]): readonly number[] => {
  const struck = parts
    .filter(({ percussion }) => percussion)
    .flatMap(({ notes }) => notes.filter(({ pitch }) => kitVoiceOf(pitch) === "crash"));
  return form.map(({ from, bars }) => struck.filter(({ bar }) => bar >= from && bar < from + bars).length);
};
