/**
 * A chord moved with its key. Only its root and its bass note move: what is built on the root (`m7`, `sus4`) is anybody's way
 * of writing and stays as it is.
 */
import { type Key, keyWithSignature, type Letter, pitchClassOf, signatureOf } from "./key.ts";

const LETTERS: readonly Letter[] = ["C", "D", "E", "F", "G", "A", "B"];
const CHORD =
  /^([A-G])([#b♯♭]?)((?:maj|min|ma|mi|dim|aug|sus|add|alt|no|m|M|6\/9|\d|[#b♯♭](?=\d)|[°øΔ+\-()])*)(?:\/([A-G])([#b♯♭]?))?$/u;
const CHORD_MAX = 20;
/** Sharps up to B, flats for the rest: how players name a note that stands for no step. Common practice, no published source. */
const PLAIN = ["C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"] as const;

const mod = (n: number, by: number): number => ((n % by) + by) % by;

const signOf = (sign: string): Key["accidental"] =>
  sign === "#" || sign === "♯" ? 1 : sign === "b" || sign === "♭" ? -1 : 0;

/** The note that lies to `to` as this one lies to `from`, by letters and by semitones; without double accidentals. */
const noteIn = (letter: Letter, sign: string, from: Key, to: Key): string => {
  const note: Key = { letter, accidental: signOf(sign), mode: "major" };
  const pitch = mod(pitchClassOf(note) - pitchClassOf(from) + pitchClassOf(to), 12);
  const steps = LETTERS.indexOf(letter) - LETTERS.indexOf(from.letter) + LETTERS.indexOf(to.letter);
  const spelled = LETTERS[mod(steps, 7)] ?? "C";
  const natural = pitchClassOf({ letter: spelled, accidental: 0, mode: "major" });
  const off = mod(pitch - natural + 6, 12) - 6;
  return Math.abs(off) > 1 ? (PLAIN[pitch] ?? "C") : `${spelled}${["b", "", "#"][off + 1]}`;
};

/** One chord by its name: a root, what is built on it, a bass note. Empty is none. */
export const isChord = (text: string): boolean => text.length <= CHORD_MAX && CHORD.test(text);

/** A chord of one key as it is called in another: `D5`, from D to E, is `E5`. What is no chord stays as it is. */
export const chordIn = (chord: string, from: Key, into: Key): string => {
  // A major key and its relative minor have the same chords.
  const to = from.mode === into.mode ? into : keyWithSignature(signatureOf(into), from.mode);
  const read = CHORD.exec(chord);
  if (read === null) return chord;
  const [, letter = "C", sign = "", quality = "", low, lowSign = ""] = read;
  const root = noteIn(letter as Letter, sign, from, to);
  const bass = low === undefined ? "" : `/${noteIn(low as Letter, lowSign, from, to)}`;
  return `${root}${quality}${bass}`;
};
