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

/** Pitch → share of the sung time, in any unit. */
export type SungTimes = {
  readonly histogram: readonly (readonly [pitch: number, share: number])[];
};

/** A song's melody without its lift. `key`: the key these notes are in, so that a ruling on the key moves none of them. */
export type SongMelody = { readonly key: string } & (ThreeNotes | SungTimes);

const PITCH_MOST = 127;
const KEY_MOST = 40;

const at = (value: unknown, name: string): unknown => Reflect.get(Object(value), name);

const isPitch = (n: unknown): boolean =>
  Number.isInteger(n) && (n as number) >= 0 && (n as number) <= PITCH_MOST;

/** Whether these entries are pitches, none below the one before. */
const isRising = (value: unknown, names: readonly string[]): boolean =>
  names
    .map((name) => at(value, name))
    .every((n, i, all) => isPitch(n) && (i === 0 || Number(n) >= Number(all[i - 1])));

export const isVoice = (value: unknown): boolean =>
  isRising(value, ["lowest", "comfortLow", "comfortHigh", "highest"]) &&
  at(value, "comfortLow") !== at(value, "comfortHigh");

const isHistogram = (list: unknown): boolean =>
  Array.isArray(list) &&
  list.length > 0 &&
  new Set(list.map((pair) => at(pair, "0"))).size === list.length &&
  list.every((pair) => isPitch(at(pair, "0")) && Number.isFinite(at(pair, "1")) && Number(at(pair, "1")) > 0);

export const isMelody = (value: unknown): boolean => {
  const key = at(value, "key");
  return (
    typeof key === "string" &&
    key.length <= KEY_MOST &&
    (isRising(value, ["low", "typical", "high"]) || isHistogram(at(value, "histogram")))
  );
};
