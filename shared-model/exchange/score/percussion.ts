/** General MIDI Level 1 (MMA RP-003, 1991): its percussion map and its groups of programs, as far as a band speaks of them. */

import { GRID_VOICES, type GridVoice } from "../../board/grid.ts";

const KEYS: { readonly [V in GridVoice]: readonly number[] } = {
  kick: [35, 36],
  snare: [37, 38, 40],
  hats: [42, 44, 46],
  ride: [51, 53, 59],
  toms: [41, 43, 45, 47, 48, 50],
  clap: [39],
  crash: [49, 52, 55, 57],
};

const BY_KEY: ReadonlyMap<number, GridVoice> = new Map(
  GRID_VOICES.flatMap((voice) => KEYS[voice].map((key) => [key, voice] as const)),
);

/** What of the kit sounds at a key of the percussion map; null = something beside it, or not known. */
export const kitVoiceOf = (key: number): GridVoice | null => BY_KEY.get(key) ?? null;

/** What keeps the time on a kit, in the words of a cymbal plan. */
export const CYMBAL_WORDS = ["closed hats", "open hats", "ride", "ride bell", "crash", "floor tom"] as const;
export type CymbalWord = (typeof CYMBAL_WORDS)[number] | "none";

const TIME_KEYS: { readonly [W in (typeof CYMBAL_WORDS)[number]]: readonly number[] } = {
  "closed hats": [42],
  "open hats": [46],
  ride: [51, 59],
  "ride bell": [53],
  crash: [49, 57],
  "floor tom": [41, 43],
};

/** The cymbal, or what stands for one, at a key of the percussion map; null = none. */
export const cymbalOf = (key: number): (typeof CYMBAL_WORDS)[number] | null =>
  CYMBAL_WORDS.find((word) => TIME_KEYS[word].includes(key)) ?? null;

/** Names of drums and cymbals as scores have them; common practice, no published source. The first that fits counts. */
const NAMES: readonly (readonly [RegExp, number])[] = [
  [/bass drum|kick/i, 36],
  [/side ?stick|rim/i, 37],
  [/snare/i, 38],
  [/open.*hat|hat.*open/i, 46],
  [/hi-?\s?hat|\bhats?\b/i, 42],
  [/crash/i, 49],
  [/ride/i, 51],
  [/splash/i, 55],
  [/china|chinese/i, 52],
  [/floor/i, 41],
  [/tom/i, 47],
  [/clap/i, 39],
  [/tambourine/i, 54],
  [/cowbell/i, 56],
];

/** The key of the percussion map by an instrument's name; null = not known. */
export const unpitchedByName = (name: string): number | null =>
  NAMES.find(([pattern]) => pattern.test(name))?.[1] ?? null;

/**
 * Where drums stand on the staff, by step and octave, when a score says nothing else: kick, snare, hats and crash as in the
 * percussion tutorial of MusicXML 4.0, the rest common practice, no published source.
 */
const PLACES: Readonly<Record<string, number>> = {
  F4: 36,
  C5: 38,
  G5: 42,
  A5: 49,
  F5: 51,
  D5: 47,
  E5: 48,
  A4: 41,
  D4: 44,
};

/** The key of the percussion map by the place on the staff; 0 = not known. */
export const unpitchedByPlace = (step: string, octave: number): number => PLACES[`${step}${octave}`] ?? 0;
