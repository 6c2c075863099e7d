/**
 * Keys as a band names them: a tonic with its accidental, major or minor, English letter names.
 * Governing rule: a key is spelled so that its signature exists (at most seven sharps or flats).
 */
import { err, ok, type Result } from "../lib/result.ts";

export type Letter = "C" | "D" | "E" | "F" | "G" | "A" | "B";
export type Mode = "major" | "minor";

export interface Key {
  readonly letter: Letter;
  /** −1 flat, 0 natural, +1 sharp. */
  readonly accidental: -1 | 0 | 1;
  readonly mode: Mode;
}

/** Largest number of sharps or flats in a key signature. */
const SIGNATURE_MAX = 7;

/** Place of each letter on the line of fifths, C = 0. */
const FIFTHS: Readonly<Record<Letter, number>> = { F: -1, C: 0, G: 1, D: 2, A: 3, E: 4, B: 5 };
const LINE_OF_FIFTHS: readonly Letter[] = ["F", "C", "G", "D", "A", "E", "B"];

/**
 * Sharps (positive) or flats (negative) in the key's signature: the same number as `sf` in a MIDI key
 * signature event and `fifths` in MusicXML.
 */
export const signatureOf = ({ letter, accidental, mode }: Key): number =>
  FIFTHS[letter] + 7 * accidental - (mode === "minor" ? 3 : 0);

/** Semitones of the tonic above C, 0 to 11. */
export const pitchClassOf = ({ letter, accidental }: Key): number => mod12(7 * FIFTHS[letter] + accidental);

/** The key with this signature, −7 to 7. */
export const keyWithSignature = (signature: number, mode: Mode): Key => {
  const fifths = signature + (mode === "minor" ? 3 : 0);
  const place = fifths + 1;
  const letter = LINE_OF_FIFTHS[((place % 7) + 7) % 7];
  const accidental = Math.floor(place / 7);
  if (!letter || !isAccidental(accidental) || Math.abs(signature) > SIGNATURE_MAX) {
    throw new RangeError(`no key has the signature ${signature}`);
  }
  return { letter, accidental, mode };
};

const isAccidental = (n: number): n is Key["accidental"] => n === -1 || n === 0 || n === 1;

const mod12 = (n: number): number => ((n % 12) + 12) % 12;

const KEY_MAX = 40;
const PATTERN = /^([A-Ga-g])\s*(#|♯|b|♭|sharp|flat)?\s*(.*)$/u;
const MINOR = /^(?:m|mi|Mi|min|minor|-)$/;
const MAJOR = /^(?:|maj|major)$/;

/**
 * Reads a key as players write it: `Em`, `F#m`, `Bb`, `E♭ minor`, `a flat major`. `M` alone means major.
 * A key that no signature can show, such as D# major, comes back as the same sound respelled: Eb.
 */
export const parseKey = (text: string): Result<Key> => {
  const said = text.trim();
  const match = said.length <= KEY_MAX ? PATTERN.exec(lowerWords(said)) : null;
  const mode = match && modeOf(match[3] ?? "");
  if (!match || !mode) return err(refusal(said));
  const letter = LINE_OF_FIFTHS.find((candidate) => candidate === match[1]?.toUpperCase());
  if (!letter) return err(refusal(said));
  return ok(respelled({ letter, accidental: accidentalOf(match[2]), mode }));
};

/** The key as it is stored: `Em`, `F#m`, `Bb`. Typed with any keyboard and read back by `parseKey`. */
export const formatKey = ({ letter, accidental, mode }: Key): string =>
  `${letter}${["b", "", "#"][accidental + 1]}${mode === "minor" ? "m" : ""}`;

/** The key as it is shown: `Em`, `F♯m`, `B♭`. */
export const showKey = (key: Key): string => formatKey(key).replace("b", "♭").replace("#", "♯");

/** Lower-cases whole words only, so that `Bb` keeps its flat and `BbM` its major; `E-flat` loses its hyphen. */
const lowerWords = (said: string): string =>
  said.slice(0, 1) +
  said
    .slice(1)
    .replace(/\p{L}{3,}/gu, (word) => word.toLowerCase())
    .replace(/-(?=sharp|flat|maj|min)/g, " ");

const modeOf = (word: string): Mode | null => {
  if (MINOR.test(word)) return "minor";
  return MAJOR.test(word) || word === "M" ? "major" : null;
};

const accidentalOf = (sign: string | undefined): Key["accidental"] => {
  if (sign === undefined) return 0;
  return sign === "b" || sign === "♭" || sign === "flat" ? -1 : 1;
};

/** Twelve fifths lead to the same sound under another name. */
const respelled = (key: Key): Key => {
  const signature = signatureOf(key);
  if (Math.abs(signature) <= SIGNATURE_MAX) return key;
  return keyWithSignature(signature - Math.sign(signature) * 12, key.mode);
};

const refusal = (said: string): string => {
  const how = "Write a letter from A to G, then # or b, then m for minor: Em, F#m, Bb.";
  if (said === "") return `The key is missing. ${how}`;
  if (/^h/i.test(said)) return `"${shorten(said)}" starts with H: in English names that note is B. ${how}`;
  return `"${shorten(said)}" is not a key. ${how}`;
};

const shorten = (said: string): string => (said.length > KEY_MAX ? `${said.slice(0, KEY_MAX)}…` : said);
