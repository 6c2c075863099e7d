/** How a melody lies in a voice, as named terms. They order keys for one singer; they diagnose nothing. */
import type { Voice } from "../../board/voice.ts";
import { err, ok, type Result } from "../../lib/result.ts";
import { type Melody, rangeOf } from "./melody.ts";

/** The voice, or what is wrong with its four notes. */
export const checkVoice = (voice: Voice): Result<Voice> => {
  const { lowest, comfortLow, comfortHigh, highest } = voice;
  if (!(comfortLow < comfortHigh))
    return err("The comfortable top lies above the comfortable bottom. Put the two in order.");
  if (!(lowest <= comfortLow && comfortHigh <= highest))
    return err("What is comfortable lies between the lowest and the highest note. Put the four in order.");
  return ok(voice);
};

export interface VoiceTerms {
  /** Beyond what the voice can do. */
  readonly out: number;
  /** Above the comfortable top. */
  readonly high: number;
  /** Below the comfortable bottom. */
  readonly low: number;
  /** Away from where the voice likes to lie. */
  readonly lie: number;
}

/** Share of the comfortable width at which a voice likes to lie. */
const MIDDLE = 0.55;

/** How far x is from `edge` on the way to `limit`, 0 to 1; 1 at once where the two are one. */
const into = (x: number, edge: number, limit: number): number =>
  limit === edge ? 1 : Math.min(1, (x - edge) / (limit - edge));

/** What the melody costs this voice when it is sung `up` semitones higher (negative = lower). */
export const voiceTerms = (melody: Melody, voice: Voice, up: number): VoiceTerms => {
  const { lowest, comfortLow, comfortHigh, highest } = voice;
  const middle = middleOf(voice);
  const half = (comfortHigh - comfortLow) / 2;
  let [above, below, high, low, mean] = [0, 0, 0, 0, 0];
  for (const [pitch, share] of melody) {
    const x = pitch + up;
    mean += share * x;
    if (x > highest) above += share * (1 + x - highest);
    if (x < lowest) below += share * (1 + lowest - x);
    if (x > comfortHigh) high += share * into(x, comfortHigh, highest) ** 2;
    if (x < comfortLow) low += share * into(-x, -comfortLow, -lowest) ** 2;
  }
  const top = rangeOf(melody).high + up;
  return {
    out: 4 * (above + 0.6 * below) + (above + below > 0 ? 1.5 : 0),
    high: 2 * high + (top >= highest ? 0.15 : 0),
    low: 0.8 * low,
    lie: 0.6 * ((mean - middle) / half) ** 2,
  };
};

/**
 * Tessitura shift in semitones (Herbst, Duus, Jers & Švec 2012): (lower reserve − upper reserve)/2, the reserves being what
 * is left between the song's and the singer's range. 0 lies in the middle, above 0 the song lies high.
 */
export const tessituraShift = (melody: Melody, voice: Voice, up = 0): number => {
  const { low, high } = rangeOf(melody);
  return (low + up - voice.lowest - (voice.highest - (high + up))) / 2;
};

/** Where a voice likes to lie, as a pitch. */
export const middleOf = ({ comfortLow, comfortHigh }: Voice): number =>
  comfortLow + MIDDLE * (comfortHigh - comfortLow);

/** Share of the sung time above a pitch. */
export const shareAbove = (melody: Melody, pitch: number): number => {
  let share = 0;
  for (const [note, time] of melody) if (note > pitch) share += time;
  return share;
};

/** Share of the sung time above the comfortable top, from which it is said. */
const LONG_HIGH = 0.15;

/** What to watch, in whole sentences; none of it is a diagnosis. */
export const cautions = (melody: Melody, voice: Voice, up: number): readonly string[] => {
  const { low, high } = rangeOf(melody);
  const over = high + up - voice.highest;
  const under = voice.lowest - (low + up);
  const said: string[] = [];
  const semitones = (n: number): string => (n === 1 ? "1 semitone" : `${n} semitones`);
  if (over > 0) said.push(`The top note lies ${semitones(over)} above the limit.`);
  else if (over >= -1) said.push("The top note lies within a semitone of the limit.");
  if (under > 0) said.push(`The lowest note lies ${semitones(under)} below the limit.`);
  const above = shareAbove(melody, voice.comfortHigh - up);
  if (above > LONG_HIGH)
    said.push(`${Math.round(above * 100)} % of what is sung lies above the comfortable top.`);
  return said;
};
