/**
 * What somebody can sing and what a song asks for, as MIDI note numbers: C4 = 60, A4 = 69. Type aliases, because only
 * those count as plain JSON.
 */

/** What a singer says of their own voice. */
export type Voice = {
  readonly lowest: number;
  readonly comfortLow: number;
  readonly comfortHigh: number;
  readonly highest: number;
};

/** Three notes a singer can name. */
export type ThreeNotes = {
  readonly low: number;
  /** Where the melody mostly lies. */
  readonly typical: number;
  readonly high: number;
};

/** Pitch → share of the sung time, in any unit; from the lowest up. */
export type SungTimes = {
  readonly histogram: readonly (readonly [pitch: number, share: number])[];
};

/** A song's melody without its lift. `key`: the key these notes are in, so that a ruling on the key moves none of them. */
export type SongMelody = { readonly key: string } & (ThreeNotes | SungTimes);

/** Whether these are pitches, none below the one before. Short, because the reader of every phone carries it. */
const areRising = (notes: readonly unknown[]): boolean =>
  notes.every(
    (note, i) => Number.isInteger(note) && Number(note) >= Number(notes[i - 1] ?? 0) && Number(note) < 128,
  );

export const isVoice = (value: unknown): boolean => {
  const { lowest, comfortLow, comfortHigh, highest } = Object(value);
  return areRising([lowest, comfortLow, comfortHigh, highest]) && comfortLow !== comfortHigh;
};

export const isMelody = (value: unknown): boolean => {
  const { key, low, typical, high, histogram } = Object(value);
  return (
    typeof key === "string" &&
    (areRising([low, typical, high]) ||
      (Array.isArray(histogram) &&
        histogram.length > 0 &&
        areRising(histogram.map((pair) => Object(pair)[0])) &&
        histogram.every((pair) => pair[1] > 0 && pair[1] < 1e9)))
  );
};
