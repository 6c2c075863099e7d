/** How often a bar of light may pulse with the beat. */
import { beatsPerBar, parseMetre } from "./metre.ts";

/** Most flashes in a second (WCAG 2.2, success criterion 2.3.1). */
export const FLASHES_MOST = 3;

export interface Pulse {
  /** Beats from one pulse to the next. */
  readonly beats: number;
  /** The same in ms. */
  readonly ms: number;
}

/**
 * A pulse on every beat, or, where that is more than three a second, on as few beats as keep it within: first what
 * divides the bar, then whole bars. A metre that cannot be read counts as four beats.
 */
export const pulseOf = (bpm: number, metre: string): Pulse => {
  const read = parseMetre(metre);
  const bar = read.ok ? beatsPerBar(read.value) : 4;
  const ms = 60_000 / bpm;
  const fits = (beats: number): boolean => beats * ms * FLASHES_MOST >= 1000;
  for (let beats = 1; beats < bar; beats++)
    if (bar % beats === 0 && fits(beats)) return { beats, ms: beats * ms };
  let bars = 1;
  while (!fits(bars * bar)) bars += 1;
  return { beats: bars * bar, ms: bars * bar * ms };
};
