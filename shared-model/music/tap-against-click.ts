/** What somebody tapped, held against the click that they heard meanwhile. */
import type { ClickTrack } from "./click.ts";
import { tempoFromTaps } from "./tap-tempo.ts";
import { distancePercent } from "./tempo.ts";

export interface TapReading {
  /** The player's tempo against the click's, in percent; positive = faster. */
  readonly drift: number;
  /** Where the taps lie in the middle, in seconds from the nearest beat; positive = late. Holds the device's delay. */
  readonly offset: number;
  /** Nobody would hear the offset. */
  readonly onClick: boolean;
}

/** What a foot taps of a beat: each one, every other one, halves, triplets. */
const TAPPED = [1, 2, 3, 1 / 2, 1 / 3] as const;

/** Friberg & Sundberg 1995: a displaced note is just heard at 2.5 % of the interval, at 6 ms below 240 ms. */
const HEARD_SHARE = 0.025;
const HEARD_LEAST = 0.006;

/**
 * Reads taps, in seconds on the time of the track, ascending. Whoever taps every other beat, or halves or thirds of
 * it, is understood. Null until there are enough of them for a tempo.
 */
export const readTaps = (track: ClickTrack, taps: readonly number[]): TapReading | null => {
  const tempo = tempoFromTaps(taps.map((time) => time * 1000));
  const last = taps.at(-1);
  if (tempo === null || last === undefined) return null;
  const { perBeat } = track.plan;
  const stepAt = Math.max(0, Math.round(track.stepsAt(last)));
  const { bpm } = track.at(stepAt);
  const share = TAPPED.reduce((best, one) =>
    Math.abs(Math.log(tempo / (bpm * one))) < Math.abs(Math.log(tempo / (bpm * best))) ? one : best,
  );
  const fine = Math.max(1, share);
  const offsets = taps.map((time) => {
    const beat = track.stepsAt(time) / perBeat;
    return ((beat - Math.round(beat * fine) / fine) * 60) / bpm;
  });
  const offset = median(offsets);
  const heard = Math.max(HEARD_LEAST, (HEARD_SHARE * 60) / (bpm * fine));
  return { drift: distancePercent(tempo, bpm * share), offset, onClick: Math.abs(offset) <= heard };
};

const median = (values: readonly number[]): number => {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = (sorted.length - 1) / 2;
  return ((sorted[Math.floor(middle)] ?? 0) + (sorted[Math.ceil(middle)] ?? 0)) / 2;
};

/** A reading in words: `1.4 % faster than the click, 21 ms late`. */
export const tapWords = ({ drift, offset, onClick }: TapReading): string => {
  const percent = Math.abs(drift).toFixed(1);
  const tempo =
    percent === "0.0" ? "at the click's tempo" : `${percent} % ${drift > 0 ? "faster" : "slower"}`;
  const ms = Math.round(Math.abs(offset) * 1000);
  return `${tempo}, ${onClick ? "on the click" : `${ms} ms ${offset > 0 ? "late" : "early"}`}`;
};
