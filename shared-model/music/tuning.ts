/**
 * Guitar tunings as bands name them. Strings are MIDI note numbers as they sound, lowest first: the guitar is written an
 * octave higher.
 */
import type { Key } from "./key.ts";
import { noteName } from "./note-name.ts";
import { transposeKey } from "./transpose.ts";

export interface Tuning {
  /** As a band says it. */
  readonly name: string;
  /** Semitones of the strings from standard, whatever the lowest one does on its own; −1 = half a step down. */
  readonly semitones: number;
  readonly strings: readonly number[];
}

/** Fourths with one major third between them: E2 A2 D3 G3 B3 E4. */
export const STANDARD_STRINGS: readonly number[] = [40, 45, 50, 55, 59, 64];
/** E1 A1 D2 G2. */
export const BASS_STRINGS: readonly number[] = [28, 33, 38, 43];

const E_MAJOR: Key = { letter: "E", accidental: 0, mode: "major" };
const DROP = 2;

const lowered = (name: string, semitones: number, drop = 0): Tuning => ({
  name,
  semitones,
  strings: STANDARD_STRINGS.map((string, i) => string + semitones - (i === 0 ? drop : 0)),
});

export const STANDARD = lowered("standard", 0);

const TUNINGS: readonly Tuning[] = [
  STANDARD,
  lowered("half step down", -1),
  lowered("whole step down", -2),
  lowered("drop D", 0, DROP),
  lowered("drop D, half a step down", -1, DROP),
  lowered("drop C", -2, DROP),
  // An open chord is a tuning of its own, from which nothing is moved.
  { name: "open G", semitones: 0, strings: [38, 43, 50, 55, 59, 62] },
];

/** Other words for them, in lower case with plain signs. */
const ALSO: Readonly<Record<string, readonly string[]>> = {
  standard: ["", "e", "e standard", "eadgbe", "normal", "usual", "concert"],
  "half step down": [
    "eb", "eb standard", "e flat", "e flat standard", "eb tuning", "half a step down", "a half step down", "down a half step",
    "down half a step", "semitone down", "a semitone down", "1 semitone down",
  ],
  "whole step down": [
    "d", "d standard", "whole tone down", "a whole step down", "down a whole step", "full step down", "a tone down", "tone down",
    "2 semitones down",
  ],
  "drop D": ["dropped d", "drop-d", "dadgbe"],
  "drop D, half a step down": ["drop c#", "drop db", "drop d half step down", "drop d, half step down"],
  "drop C": ["dropped c"],
}; // biome-ignore format: one tuning a line

const plain = (words: string): string =>
  words
    .toLowerCase()
    .replace(/♭/gu, "b")
    .replace(/♯/gu, "#")
    .replace(/[\s–-]+/gu, " ")
    .replace(/ tuning$/u, "")
    .trim();

const BY_WORDS = new Map(
  TUNINGS.flatMap((tuning) =>
    [tuning.name, ...(ALSO[tuning.name] ?? [])].map((words) => [plain(words), tuning] as const),
  ),
);

/** Reads what a song says of its tuning; null = words we cannot count with. */
export const parseTuning = (words: string): Tuning | null => BY_WORDS.get(plain(words)) ?? null;

/** The plain tuning so many semitones from standard, in words. */
export const tuningWords = (semitones: number): string =>
  TUNINGS.find((tuning) => tuning.semitones === semitones)?.name ??
  `${Math.abs(semitones)} semitones ${semitones < 0 ? "down" : "up"}`;

/** The strings by name, spelled as the lowered E is: `E♭2 A♭2 D♭3 G♭3 B♭3 E♭4`. */
export const stringNames = ({ strings, semitones }: Tuning): string =>
  strings.map((string) => noteName(string, transposeKey(E_MAJOR, semitones))).join(" ");
