import type { RulingSource } from "./card.ts";
import type { Id } from "./ids.ts";
import type { SongMelody } from "./voice.ts";

/** Where a song stands in the repertoire. Resting songs are hidden by default. */
export const STAGES = ["candidate", "learning", "in the book", "resting"] as const;
export type Stage = (typeof STAGES)[number];

/** How much the guitars' part hangs on its shape under the hand; empty = any shape will do. */
export const SHAPE_MATTERS = ["", "nice", "essential"] as const;
export type ShapeMatters = (typeof SHAPE_MATTERS)[number];

/** What a song does to a dance floor; empty = nobody said. */
export const FLOOR_ROLES = ["", "fills", "holds", "slow", "seated"] as const;
export type FloorRole = (typeof FLOOR_ROLES)[number];

/** Where in a block a song is strong; empty = anywhere. */
export const STRONG_PLACES = ["", "opener", "closer", "both"] as const;
export type StrongPlace = (typeof STRONG_PLACES)[number];

/** A song and the rulings everybody plays by. Empty strings and nulls mean "not settled yet". */
/** The chord a song begins on, with the key it is in, so that a ruling on the key moves it; an empty key is the song's. */
export type FirstChord = { readonly chord: string; readonly key: string };

export interface Song {
  readonly id: Id;
  readonly title: string;
  readonly stage: Stage;
  readonly style: string;
  /** Which recording or arrangement we learn from, in words. */
  readonly version: string;
  readonly recordKey: string;
  /** Key we play it in, e.g. `Em`, `Bb`. */
  readonly key: string;
  /** Key after a lift inside the song; empty when there is none. */
  readonly liftKey: string;
  /** Target beats per minute of the counted beat. */
  readonly tempo: number | null;
  readonly metre: string;
  /** Played length in seconds. */
  readonly length: number | null;
  readonly countIn: string;
  /** Null = nobody said. */
  readonly firstChord: FirstChord | null;
  readonly ending: string;
  /** Guitar tuning in words; empty = the band's usual one. */
  readonly tuning: string;
  readonly capo: number;
  /** Null = nobody said. */
  readonly melody: SongMelody | null;
  readonly shapeMatters: ShapeMatters;
  /** True when the guitars' riff needs the open lowest string. */
  readonly openLow: boolean;
  /** How far (percent) a tempo may lie from the target; null = the usual 2. */
  readonly tolerance: number | null;
  /** How big it feels to the room, 1 to 5; null = not said. */
  readonly energy: number | null;
  readonly floor: FloorRole;
  readonly strong: StrongPlace;
  readonly hardToSing: boolean;
  /** What somebody changes to for it, an instrument or a stool; empty = nothing. */
  readonly rig: string;
  readonly notes: string;
  /** Played at gigs before the log began: no debut gate. */
  readonly playedBefore: boolean;
  readonly order: string;
  readonly addedAt: number;
  /** Moments (ms) of the last change that asked everybody to learn again; 0 = never. */
  readonly since: {
    readonly key: number;
    readonly tempo: number;
    readonly form: number;
    readonly ending: number;
  };
}

/** A stretch of the form. */
export interface Section {
  readonly id: Id;
  readonly song: Id;
  readonly name: string;
  readonly bars: number;
  /** How often it is played in a row, 1 to 9; `pass` of a place counts them. */
  readonly repeats: number;
  /** Where it has its own; empty = the song's. */
  readonly metre: string;
  /** Where it has its own; null = the song's. */
  readonly tempo: number | null;
  /** The key from here on, where it changes; empty = as before. */
  readonly key: string;
  readonly order: string;
  /** Moment (ms) this section last changed with "learn again"; 0 = never. */
  readonly since: number;
}

/** How one song is cast on one chair, where it differs from the default. */
export interface Casting {
  readonly song: Id;
  readonly chair: Id;
  /** False = nothing to play: the part is tacet and absent from every formula. */
  readonly plays: boolean;
  /** False = nice to have. */
  readonly needed: boolean;
  /** Who plays it in this song; null = whoever holds the chair. */
  readonly holder: Id | null;
  /** Relative share of the part among the song's parts; 1 by default. */
  readonly share: number;
  /** The player who declared "nothing special" for a part without musts; null = nobody did. */
  readonly nothingSpecial: Id | null;
}

/** What the band decided about a song or one of its details. Append-only. */
export interface Ruling {
  readonly id: Id;
  readonly song: Id;
  readonly card: Id | null;
  /** What it is about: `key`, `tempo`, `form`, `count-in`, `ending`, `version`, `detail`… */
  readonly about: string;
  readonly source: RulingSource;
  readonly text: string;
  /** What stood before; empty when nothing did. */
  readonly before: string;
  /** The reason, so that it need not be argued again; empty when nobody gave one. */
  readonly why: string;
  /** The rulings on the same thing that were known when it was made; null = not written down: all earlier ones. */
  readonly over: readonly Id[] | null;
  readonly by: Id;
  readonly at: number;
}
