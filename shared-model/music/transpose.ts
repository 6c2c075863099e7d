import { type Key, keyWithSignature, pitchClassOf } from "./key.ts";

/** Of F♯ and G♭ (six each) bands write the major as F♯ and the minor as E♭: common practice, no published source. */
const LOWEST_MAJOR = -5;
const LOWEST_MINOR = -6;

/**
 * The key so many semitones higher (negative = lower), spelled with the fewest sharps or flats: E♭ rather than D♯.
 * Whole octaves leave the spelling as it was.
 */
export const transposeKey = (key: Key, semitones: number): Key => {
  if (!Number.isInteger(semitones)) throw new RangeError(`semitones must be whole: ${semitones}`);
  if (semitones % 12 === 0) return key;
  const lowest = key.mode === "major" ? LOWEST_MAJOR : LOWEST_MINOR;
  const target = (((pitchClassOf(key) + semitones) % 12) + 12) % 12;
  for (let signature = lowest; signature < lowest + 12; signature += 1) {
    const candidate = keyWithSignature(signature, key.mode);
    if (pitchClassOf(candidate) === target) return candidate;
  }
  throw new RangeError("twelve neighbouring signatures cover every tonic");
};

/** Semitones from one tonic to the other by the shorter way, −5 to 6. */
export const semitonesBetween = (from: Key, to: Key): number => {
  const up = (((pitchClassOf(to) - pitchClassOf(from)) % 12) + 12) % 12;
  return up > 6 ? up - 12 : up;
};

/** The shapes a guitarist thinks in behind a capo: sounding key less the fret. */
export const capoShape = (sounding: Key, fret: number): Key => transposeKey(sounding, -fret);
