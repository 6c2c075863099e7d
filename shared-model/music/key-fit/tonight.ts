/**
 * What can be done for a singer whose top is lower tonight, cheapest first. Nothing here outlives the gig, and why the top is
 * lower is nobody's business but the singer's.
 */
import { type Melody, rangeOf } from "./melody.ts";
import { characterCost } from "./rank-keys.ts";

export interface TonightSong {
  /** The melody in the key of the night, lifts left out. */
  readonly melody: Melody;
  /** Semitones of the key lift inside the song; 0 = none. */
  readonly lift: number;
  /** True when the crowd or a backing voice can take the highest line. */
  readonly lineCanBeGiven: boolean;
}

export type Remedy =
  /** Stay in the key where the song would lift. */
  | { readonly of: "skip lift" }
  /** Somebody else, or everybody, sings the line that holds the top. */
  | { readonly of: "give the line away" }
  /** The whole song lower, with the lift if there is one. */
  | { readonly of: "lower"; readonly semitones: number; readonly skipLift: boolean }
  /** Another song. */
  | { readonly of: "swap" };

/** What each remedy costs the band: nobody relearns a lift or a line that is left out. */
const PRICE = { skip: 0.05, line: 0.1, relearn: 0.2 } as const;
/** Farther than this, another song is better (common practice). */
const FARTHEST = 3;

/** Semitones by which the highest note lies over tonight's top; 0 or less = it fits. */
export const overBy = ({ melody, lift }: Pick<TonightSong, "melody" | "lift">, top: number): number =>
  rangeOf(melody).high + Math.max(0, lift) - top;

interface Priced {
  readonly remedy: Remedy;
  readonly price: number;
}

/** The remedies that bring a song under `top` (a MIDI note number), cheapest first; none where it fits already. */
export const remediesFor = (song: TonightSong, top: number): readonly Remedy[] => {
  if (overBy(song, top) <= 0) return [];
  const found: Priced[] = [];
  const lifts = song.lift > 0;
  if (lifts && overBy({ ...song, lift: 0 }, top) <= 0)
    found.push({ remedy: { of: "skip lift" }, price: PRICE.skip });
  if (song.lineCanBeGiven) found.push({ remedy: { of: "give the line away" }, price: PRICE.line });
  for (const skipLift of lifts ? [false, true] : [false]) {
    const semitones = overBy(skipLift ? { ...song, lift: 0 } : song, top);
    if (semitones < 1 || semitones > FARTHEST) continue;
    const price = PRICE.relearn + characterCost(-semitones) + (skipLift ? PRICE.skip : 0);
    found.push({ remedy: { of: "lower", semitones, skipLift }, price });
  }
  found.push({ remedy: { of: "swap" }, price: 1 });
  return found.sort((a, b) => a.price - b.price).map(({ remedy }) => remedy);
};
