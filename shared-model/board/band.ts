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
  /** In playing order. */
  readonly songs: readonly GigSong[];
  /** Chairs filled differently that night; null = nobody. Chairs not listed keep their usual player. */
  readonly lineUp: ReadonlyMap<Id, Id | null>;
  readonly waivers: readonly Waiver[];
}
