/**
 * The invented band's repertoire as plain data: what a song, a detail and an evening look like before
 * they become a board. Days are counted from the season's Saturday (0); the past is negative.
 * Governing rule: nothing here knows today's date, so the same data shifts to any week.
 */
import type { CardKind, RulingSource, Weight } from "../board/card.ts";
import type { ShapeMatters, Stage } from "../board/song.ts";
import type { Level } from "../board/status.ts";
import type { Feel, Severity } from "../board/take.ts";

export const CHAIR_CODES = ["Gt1", "Gt2", "Bs", "Dr", "Ky", "Vx"] as const;
export type ChairCode = (typeof CHAIR_CODES)[number];

// biome-ignore format: given, in the book, on the way, resting
export const SONG_CODES = [
  "MD", "TC", "LT", "UT", "WA", "LO",
  "RW", "EE", "QP", "NW", "GL", "PP", "BL", "SB", "VB", "CT", "FL",
  "KR", "MM", "SK", "AL", "LM", "NR", "WT",
  "HT", "AF", "SD", "OC",
] as const;
export type SongCode = (typeof SONG_CODES)[number];
export type CardCode = `${SongCode}${number}`;

export const PERSON_CODES = ["tomasz", "ifeoma", "minjae", "lucia", "anneli", "priya", "karim"] as const;
export type PersonCode = (typeof PERSON_CODES)[number];

/** Days from the season's Saturday; negative = before it. */
export type SeasonDay = number;

/** Where a song is cast otherwise than by default. */
export interface DemoCasting {
  readonly plays?: false;
  readonly needed?: false;
  readonly holder?: PersonCode;
}

export interface DemoSong {
  readonly code: SongCode;
  readonly title: string;
  readonly stage: Stage;
  readonly style: string;
  readonly version: string;
  readonly recordKey: string;
  /** Empty = not settled yet. */
  readonly key: string;
  readonly liftKey?: string;
  /** Semitones from the record's key to ours. */
  readonly shift?: number;
  /** Lowest and highest note of the lead melody on the record. */
  readonly melody?: readonly [low: string, high: string];
  /** The note it mostly lies on, where somebody wrote that down. */
  readonly mostly?: string;
  /** How far the guitars hang on the shape under the hand. */
  readonly shapeMatters?: ShapeMatters;
  readonly openLow?: true;
  readonly metre: string;
  /** Counted beats in a bar: what the tempo counts. */
  readonly beats: number;
  readonly tempo: number;
  /** Seconds. */
  readonly length: number;
  readonly countIn: string;
  readonly ending: string;
  readonly tuning?: string;
  readonly capo?: number;
  readonly notes?: string;
  /** Section name → bars, in playing order; empty = nobody wrote the form down yet. */
  readonly form: Readonly<Record<string, number>>;
  readonly added: SeasonDay;
  /** Played at gigs before the season's log began. */
  readonly playedBefore?: true;
  readonly castings?: Readonly<Partial<Record<ChairCode, DemoCasting>>>;
}

export type Levels = Readonly<Partial<Record<ChairCode, Level>>>;

export interface DemoCard {
  readonly code: CardCode;
  readonly weight: Weight;
  readonly kind: CardKind;
  /** As players say it; read by `parseWhere`. */
  readonly where: string;
  /** The card's chairs, each with its player's level; empty = spotted, not placed yet. */
  readonly levels: Levels;
  readonly text: string;
  readonly right: string;
  readonly source: RulingSource;
  /** A cover card applies only while this chair is empty. */
  readonly without?: ChairCode;
}

/** Everything written about one song, and how far its players are. */
export interface DemoDetails {
  readonly song: SongCode;
  /** When the cards were written down. */
  readonly written: SeasonDay;
  /** When the players last said where they stand: late that evening, after any takes. */
  readonly confirmed: SeasonDay;
  readonly cards: readonly DemoCard[];
  /** How far each player is with the part itself. */
  readonly parts: Levels;
  /** Chairs whose player declared that the part needs no must. */
  readonly nothingSpecial?: readonly ChairCode[];
}

export interface DemoRuling {
  readonly song: SongCode;
  readonly card?: CardCode;
  readonly about: "key" | "version" | "count-in" | "ending" | "tuning" | "tempo" | "form" | "detail";
  readonly source: RulingSource;
  /** For a key, version, count-in, ending or tuning: exactly what the song says from then on. */
  readonly text: string;
  /** What the song said before; absent for form and details, which keep what is written. */
  readonly before?: string;
  /** The reason, where somebody gave one. */
  readonly why?: string;
  readonly by: PersonCode;
  readonly day: SeasonDay;
}

export interface DemoSlip {
  readonly chair: ChairCode | null;
  readonly card: CardCode | null;
  readonly severity: Severity;
}

export interface DemoTake {
  readonly song: SongCode;
  readonly kind: "drill" | "run";
  readonly scope:
    | { readonly of: "whole" }
    | { readonly of: "sections"; readonly sections: readonly string[] }
    | { readonly of: "cards"; readonly cards: readonly CardCode[] };
  readonly feel: Feel;
  readonly tempoStart: number | null;
  readonly tempoEnd: number | null;
  readonly slips: readonly DemoSlip[];
}

/** One evening in the room, or one night on a stage. */
export interface DemoEvening {
  readonly day: SeasonDay;
  readonly away: readonly ChairCode[];
  /** Who sat in for somebody away. */
  readonly deps: Readonly<Partial<Record<ChairCode, PersonCode>>>;
  /** In the order played. */
  readonly takes: readonly DemoTake[];
}

/** One player's work at home on one song. */
export interface DemoSolo {
  readonly day: SeasonDay;
  readonly by: PersonCode;
  readonly chair: ChairCode;
  readonly song: SongCode;
  readonly feel: Feel;
}

export interface DemoGig {
  readonly code: string;
  readonly name: string;
  readonly place: string;
  readonly minutes: number;
  readonly songs: readonly SongCode[];
  readonly lineUp: Readonly<Partial<Record<ChairCode, PersonCode>>>;
}
