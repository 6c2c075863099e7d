/** The words that sides of a detail share: names of levels, intervals, beats and sections, and what makes one sentence. */
import type { Id } from "../ids.ts";

/** How chairs and sections are called where a side is read. */
export interface SideNames {
  readonly chair: (id: Id) => string;
  /** In the order of the form; sections that are not here are gone. */
  readonly sections: readonly { readonly id: Id; readonly name: string }[];
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** One sentence of the parts that say something: `Gain 6 of 10, volume 7; bridge pickup.` */
export const sentenceOf = (parts: readonly (string | null)[]): string =>
  `${capital(parts.filter((part) => part !== null && part !== "").join("; "))}.`;

/**
 * Levels of loudness, softest first: five of the names that printed music has had for centuries (the `dynamics` element of
 * MusicXML 4.0 lists them among others).
 */
const LEVELS = [
  ["pp", "pianissimo"],
  ["p", "piano"],
  ["mf", "mezzo forte"],
  ["f", "forte"],
  ["ff", "fortissimo"],
] as const;
export const LEVELS_MOST = LEVELS.length;

/** `piano (p)`; `level` from 1 (softest). */
export const loudnessWords = (level: number): string => {
  const [sign, name] = LEVELS[level - 1] ?? [String(level), "level"];
  return `${name} (${sign})`;
};

const INTERVALS = [
  "unison", "second", "third", "fourth", "fifth", "sixth", "seventh", "octave", "ninth", "tenth", "eleventh", "twelfth",
  "thirteenth", "fourteenth", "fifteenth",
] as const; // biome-ignore format: one glance
export const STEPS_MOST = INTERVALS.length - 1;

/**
 * Semitones of each interval in a major scale, from the unison on: of the two sizes of a third or a sixth the greater one, as
 * whoever sings below has to reach it. Any handbook of harmony.
 */
const MAJOR = [0, 2, 4, 5, 7, 9, 11] as const;

/** About how many semitones an interval by steps spans, below 0 for one below. */
export const intervalSemitones = (steps: number): number => {
  const size = Math.abs(steps);
  return Math.sign(steps) * (12 * Math.floor(size / 7) + (MAJOR[size % 7] ?? 0));
};

/**
 * An interval by its steps along the scale: 2 = a third above, −7 = an octave below. An interval's number counts both of
 * its notes, so it is one more than the steps.
 */
export const intervalWords = (steps: number): string => {
  const name = INTERVALS[Math.abs(steps)] ?? `${Math.abs(steps)} steps`;
  if (steps === 0) return "in unison";
  return `${name === "octave" || name === "eleventh" ? "an" : "a"} ${name} ${steps > 0 ? "above" : "below"}`;
};

/** `4`, and `4 and` for half a beat later. */
export const beatWords = (beat: number): string =>
  Number.isInteger(beat) ? String(beat) : `${Math.floor(beat)} and`;

/** `once`, `twice`, `4 times`. */
export const timesWords = (times: number): string =>
  times === 1 ? "once" : times === 2 ? "twice" : `${times} times`;

/** `Verse, Chorus and Tag`. */
export const listedNames = (names: readonly string[]): string =>
  names.length < 2 ? names.join("") : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
