import { TEMPO_MAX, TEMPO_MIN } from "./tempo.ts";

/** Taps it takes before a tempo is believed. */
export const TAPS_NEEDED = 4;
/** A longer silence (ms) starts a new count. */
export const TAP_GAP_MS = 2000;
/** A tap that comes earlier than this share of a beat after the last one is a bounce, not a beat. */
const EARLIEST = 0.75;

/**
 * Beats per minute from tap times in ms, ascending; null until enough taps stand close together.
 * The median interval gives the beat; each tap is counted at the beat it lies nearest to, so one missed tap counts
 * as two beats and one doubled tap is left out; the tempo is the slope of the least-squares line of time over beat.
 */
export const tempoFromTaps = (times: readonly number[]): number | null => {
  const taps = currentTaps(times);
  if (taps.length < TAPS_NEEDED) return null;
  const beats = countBeats(taps, medianInterval(taps));
  const bpm = 60_000 / slope(beats);
  return bpm >= TEMPO_MIN && bpm <= TEMPO_MAX ? bpm : null;
};

/** The taps since the last silence; the rest belongs to an earlier count. */
export const currentTaps = (times: readonly number[]): readonly number[] => {
  const start = times.findLastIndex((time, index) => time - (times[index - 1] ?? -Infinity) > TAP_GAP_MS);
  return times.slice(Math.max(start, 0));
};

/** Of an even number the longer middle one, because a bounce shortens two intervals and a miss lengthens one. */
const medianInterval = (taps: readonly number[]): number => {
  const intervals = taps.slice(1).map((time, index) => time - (taps[index] ?? time));
  intervals.sort((a, b) => a - b);
  return intervals[Math.floor(intervals.length / 2)] ?? 0;
};

interface Beat {
  readonly time: number;
  readonly count: number;
}

const countBeats = (taps: readonly number[], beat: number): readonly Beat[] => {
  const beats: Beat[] = [];
  for (const time of taps) {
    const last = beats.at(-1);
    const passed = last ? (time - last.time) / beat : 0;
    if (!last) beats.push({ time, count: 0 });
    else if (passed >= EARLIEST) beats.push({ time, count: last.count + Math.max(1, Math.round(passed)) });
  }
  return beats;
};

const slope = (beats: readonly Beat[]): number => {
  const mean = (pick: (beat: Beat) => number) =>
    beats.reduce((sum, beat) => sum + pick(beat), 0) / beats.length;
  const time = mean((beat) => beat.time);
  const count = mean((beat) => beat.count);
  const together = mean((beat) => (beat.time - time) * (beat.count - count));
  return together / mean((beat) => (beat.count - count) ** 2);
};
