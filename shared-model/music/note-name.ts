/** Notes by their MIDI number and back. The octave follows the letter: B♯3 and C4 are both 60, C♭4 is 59. */
import { err, ok, type Result } from "../lib/result.ts";
import { type Key, type Letter, signatureOf } from "./key.ts";

const STEPS: Readonly<Record<Letter, number>> = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
/** Letters along the line of fifths: sharps come in this order, flats in the reverse. */
const FIFTHS: readonly Letter[] = ["F", "C", "G", "D", "A", "E", "B"];
const SIGNS = ["♭♭", "♭", "", "♯", "♯♯"] as const;
const LOWEST = 0;
const HIGHEST = 127;

/**
 * The name of a pitch in a key. Notes of the scale are spelled as the signature spells them; of the others, a major key
 * names the lowered third, sixth and seventh and the raised first and fourth, a minor key its leading note and what is
 * raised beside it. Throws RangeError outside 0 to 127.
 */
export const noteName = (pitch: number, key: Key): string => {
  if (!Number.isInteger(pitch) || pitch < LOWEST || pitch > HIGHEST) throw new RangeError(`no note ${pitch}`);
  // The scale's seven fifths begin at the signature, and twelve neighbours hold every pitch once.
  const lowest = signatureOf(key) - (key.mode === "minor" ? 1 : 3);
  for (let fifth = lowest; fifth < lowest + 12; fifth += 1) {
    const letter = FIFTHS[((fifth % 7) + 7) % 7] ?? "C";
    const sign = Math.floor(fifth / 7);
    if ((pitch - STEPS[letter] - sign) % 12 !== 0) continue;
    return `${letter}${SIGNS[sign + 2] ?? ""}${Math.floor((pitch - sign) / 12) - 1}`;
  }
  throw new RangeError("twelve neighbouring fifths cover every pitch");
};

const PATTERN = /^([A-Ga-g])\s*(#|♯|b|♭)?\s*(-?\d)$/u;

/** Reads `A4`, `Bb3`, `F♯2` as a MIDI number; C4 is 60. */
export const parseNote = (text: string): Result<number> => {
  const said = text.trim();
  const match = PATTERN.exec(said);
  const letter = match?.[1]?.toUpperCase() as Letter | undefined;
  if (!match || letter === undefined)
    return err(
      `"${said.slice(0, 20)}" is not a note. Write a letter from A to G, then # or b, then the octave: A4, Bb3.`,
    );
  const sign = match[2] === undefined ? 0 : match[2] === "#" || match[2] === "♯" ? 1 : -1;
  const pitch = (Number(match[3]) + 1) * 12 + STEPS[letter] + sign;
  return pitch < LOWEST || pitch > HIGHEST
    ? err(`"${said}" lies outside what can be played: C-1 to G9.`)
    : ok(pitch);
};
