import { err, ok, type Result } from "../lib/result.ts";
import { beatsPerBar, type Metre } from "./metre.ts";

/** Tempos a band can mean, in counted beats per minute. */
export const TEMPO_MIN = 20;
export const TEMPO_MAX = 400;

const PATTERN = /^(?:[♩=\s]*)([+-]?\d{1,9}(?:[.,]\d{1,6})?)\s*(?:bpm)?$/iu;

/** Reads a tempo as typed: `112`, `112.5`, `112 bpm`, `♩ = 112`. */
export const parseTempo = (text: string): Result<number> => {
  const match = PATTERN.exec(text.trim());
  if (!match) return err(`"${text.trim().slice(0, 20)}" is not a tempo. ${RANGE}`);
  return checkTempo(Number(match[1]?.replace(",", ".")));
};

/** Refuses a tempo nobody can count. */
export const checkTempo = (bpm: number): Result<number> =>
  bpm >= TEMPO_MIN && bpm <= TEMPO_MAX ? ok(bpm) : err(`A tempo of ${bpm} cannot be counted. ${RANGE}`);

const RANGE = `Give beats per minute as a number from ${TEMPO_MIN} to ${TEMPO_MAX}.`;

/** How far a take sped up (positive) or slowed down, in percent of the tempo it began with. */
export const driftPercent = (start: number, end: number): number => distancePercent(end, start);

/** How far a tempo lies from the target, in percent of the target; positive = faster. */
export const distancePercent = (tempo: number, target: number): number => ((tempo - target) / target) * 100;

/** Seconds one counted beat lasts. */
export const secondsPerBeat = (bpm: number): number => 60 / bpm;

/** Seconds one bar lasts; `bpm` counts the metre's counted beat, in 6/8 the dotted crotchet. */
export const secondsPerBar = (bpm: number, metre: Metre): number => beatsPerBar(metre) * secondsPerBeat(bpm);

/** Seconds so many bars last at a steady tempo. */
export const expectedSeconds = (bars: number, bpm: number, metre: Metre): number =>
  bars * secondsPerBar(bpm, metre);
