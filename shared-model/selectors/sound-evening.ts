/** What a loud evening comes to, in sentences, and how a device remembers it for one day. */
import * as v from "valibot";
import type { Day } from "../lib/calendar.ts";
import {
  dose,
  eightHourLevel,
  LEVEL_LEAST,
  LEVEL_MOST,
  minutesLeft,
  type Stretch,
} from "../music/loudness.ts";

const KEPT = v.object({
  day: v.string(),
  stretches: v.array(
    v.object({
      level: v.pipe(v.number(), v.minValue(LEVEL_LEAST), v.maxValue(LEVEL_MOST)),
      minutes: v.pipe(v.number(), v.minValue(0), v.maxValue(1440)),
    }),
  ),
});

/** What was written down on a device, if it was on this day; anything else is nothing. */
export const readStretches = (text: string | null, day: Day): readonly Stretch[] => {
  if (text === null) return [];
  try {
    const kept = v.safeParse(KEPT, JSON.parse(text));
    return kept.success && kept.output.day === day ? kept.output.stretches : [];
  } catch {
    return [];
  }
};

export const keepStretches = (stretches: readonly Stretch[], day: Day): string =>
  JSON.stringify({ day, stretches });

/** `under 1 minute`, `15 minutes`, `4 h 20 min`. Rounded down: a guide is not stretched. */
export const timeWords = (minutes: number): string => {
  const whole = Math.floor(minutes + 1e-9);
  if (whole < 1) return "under 1 minute";
  if (whole < 90) return whole === 1 ? "1 minute" : `${whole} minutes`;
  const rest = whole % 60;
  return `${Math.floor(whole / 60)} h${rest === 0 ? "" : ` ${rest} min`}`;
};

/** A share as percent: `under 1`, `44`, `277`, `over 10000`. */
export const percentWords = (share: number): string => {
  const percent = share * 100;
  if (percent > 0 && percent < 1) return "under 1";
  return percent > 10_000 ? "over 10000" : String(Math.round(percent));
};

export interface SoundReading {
  /** Share of the day's guide, 1 = all of it. */
  readonly share: number;
  /** What it comes to. */
  readonly sentence: string;
  /** How long the last level may go on, or that it should not. */
  readonly goesOn: string;
}

/** Reads a day's stretches; null while there are none. */
export const readSound = (stretches: readonly Stretch[]): SoundReading | null => {
  const last = stretches.at(-1);
  if (last === undefined) return null;
  const share = dose(stretches);
  const steady = eightHourLevel(share);
  const like = steady === null ? "" : `, as much as ${steady.toFixed(1)} dB(A) all through eight hours`;
  const left = minutesLeft(share, last.level);
  return {
    share,
    sentence: `${percentWords(share)} % of what the guide allows in a day${like}.`,
    goesOn:
      share >= 1 - 1e-9
        ? "The day's guide is used up: rest your ears until tomorrow, or at least turn down, step back and wear plugs."
        : left >= 1440
          ? `At ${last.level} dB(A) it lasts for the rest of the day.`
          : `At ${last.level} dB(A) it is used up after ${timeWords(left)} more.`,
  };
};
