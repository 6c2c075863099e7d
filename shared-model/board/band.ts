import type { GateName } from "./gate.ts";
import type { Id } from "./ids.ts";
import type { Settings } from "./settings.ts";
import type { Voice } from "./voice.ts";

export interface Band {
  readonly name: string;
  /** IANA time zone in which the band's days begin and end. */
  readonly timeZone: string;
  /** True for the invented band a newcomer explores. */
  readonly demo: boolean;
  /** The band's usual guitar tuning. */
  readonly tuning: string;
  readonly settings: Settings;
}

export const INSTRUMENTS = [
  "guitar",
  "bass",
  "drums",
  "keys",
  "lead voice",
  "backing voice",
  "brass",
  "other",
] as const;
export type Instrument = (typeof INSTRUMENTS)[number];

/** A column of the board: an instrument or a voice that somebody holds. */
export interface Chair {
  readonly id: Id;
  readonly name: string;
  /** At most four characters for narrow columns, e.g. `Gt1`. */
  readonly short: string;
  readonly instrument: Instrument;
  /** The member who holds it by default; null = vacant. */
  readonly holder: Id | null;
  readonly order: string;
}

export interface Person {
  readonly id: Id;
  readonly name: string;
  /** Substitutes keep their own records and are never asked to practise by default. */
  readonly dep: boolean;
  /** Null = not said. */
  readonly voice: Voice | null;
  readonly order: string;
}

/**
 * What a leader asked of a song for one gig: that it stays at its place, that it is played, that it is not. A song that
 * is not to be played is not among the called ones.
 */
export const GIG_PINS = ["here", "must", "not tonight"] as const;
export type GigPin = (typeof GIG_PINS)[number];

/** What a song did to the floor that night; empty = nobody said. */
export const FLOOR_DID = ["", "filled", "stayed", "emptied"] as const;
export type FloorDid = (typeof FLOOR_DID)[number];

export const BLOCKS_OF_GIG_MAX = 6;
/** Most points of a drawn arc. */
export const ARC_MAX = 12;

/** A song's place in a gig. */
export interface GigSong {
  readonly song: Id;
  readonly order: string;
  /** Key for that night where it differs; null = the song's. */
  readonly key: string | null;
  /** Tempo for that night where it differs; null = the song's. */
  readonly tempo: number | null;
  /** Guitar tuning for that night where it differs, in words; null = the song's. */
  readonly tuning: string | null;
  /** The block it is played in, from 0; one behind the last block counts as the last. */
  readonly block: number;
  /** Empty = nothing was asked. */
  readonly pin: GigPin | "";
}

/** A key that somebody asks for, for one song on one night. Why is theirs alone. */
export interface KeyAsked {
  readonly key: string;
  /** Who asks, as their device says; empty = unknown. */
  readonly by: Id | "";
}

/** What was said of a song after the gig, beside its take. */
export interface ToldOfNight {
  /** It stood in the order and was not played. */
  readonly leftOut: boolean;
  readonly floorDid: FloorDid;
}

/** A gate the leader let pass for one song of one gig, by name. It never changes a score. */
export interface Waiver {
  readonly song: Id;
  readonly gate: GateName;
  readonly by: Id;
  readonly at: number;
  readonly note: string;
}

export interface Gig {
  readonly id: Id;
  readonly name: string;
  readonly place: string;
  /** Calendar day in the band's time zone, `YYYY-MM-DD`. */
  readonly date: string;
  /** Contracted playing minutes. */
  readonly minutes: number;
  /** Contracted minutes of each block; empty = all of them in one. */
  readonly blocks: readonly number[];
  /** Energy the leader wants from the first song to the last, 0 to 1 at even distances; empty = the usual. */
  readonly arc: readonly number[];
  /** Minutes of talking in each block. */
  readonly talk: number;
  /** When everybody is there, and when playing begins, `HH:MM` of the band's time zone; empty = not said. */
  readonly call: string;
  readonly start: string;
  readonly dress: string;
  /** Whom to ring that day. */
  readonly contact: string;
  /** What the band wants to remember of the night. */
  readonly note: string;
  /** Songs that are not to be played, by id. */
  readonly banned: readonly Id[];
  /** Songs that the host or a guest asked for, called or not, each with who asked; by id. */
  readonly requests: ReadonlyMap<Id, string>;
  /** In playing order. */
  readonly songs: readonly GigSong[];
  /** Keys that a singer asks for that night and the leader has not answered; by song. */
  readonly keysAsked: ReadonlyMap<Id, KeyAsked>;
  /** By song, called or not; songs nobody said anything of are not listed. */
  readonly told: ReadonlyMap<Id, ToldOfNight>;
  /** Chairs filled differently that night; null = nobody. Chairs not listed keep their usual player. */
  readonly lineUp: ReadonlyMap<Id, Id | null>;
  /** Who said that they cannot come that day, in code-unit order: a seat that falls to them is empty. */
  readonly away: readonly Id[];
  readonly waivers: readonly Waiver[];
}
