/**
 * What a dep's device gets and sends: one gig, and answers to it. A dep never has the board.
 *
 *     GET  /api/gig          If-None-Match?  → 200 DepGig with ETag | 304
 *     POST /api/gig/answers  DepAnswers      → 200 DepAnswered
 */
import type { CardKind, Weight } from "../board/card.ts";
import type { Id } from "../board/ids.ts";

export interface DepAnswerText {
  readonly text: string;
  /** Name of who answered; empty = unknown. */
  readonly by: string;
}

/** One of the dep's own questions. */
export interface DepQuestion {
  readonly id: Id;
  /** Null = about the whole song, or about a detail that is not shown any more. */
  readonly card: Id | null;
  readonly text: string;
  readonly answers: readonly DepAnswerText[];
}

/** One thing to get right on the dep's chair, in the band's words. */
export interface DepDetail {
  readonly id: Id;
  /** The place as players say it, such as `V2 b5`. */
  readonly where: string;
  readonly weight: Weight;
  readonly kind: CardKind;
  readonly text: string;
  /** How everybody hears that it is right; empty = not written. */
  readonly right: string;
  /** Other wordings that stand beside `text` until the band settles them. */
  readonly otherwise: readonly string[];
  /** Names of the other chairs that share it. */
  readonly shared: readonly string[];
  /** The dep has said "got it" since the detail last changed. */
  readonly gotIt: boolean;
}

/** One chair the dep sits on in a song. */
export interface DepPart {
  readonly chair: Id;
  readonly name: string;
  readonly tacet: boolean;
}

/** One song of the running order. Empty strings and nulls mean "not settled". */
export interface DepSong {
  readonly id: Id;
  readonly title: string;
  /** Which recording or arrangement the band learns from, in words. */
  readonly version: string;
  /** Key and key after the lift that night. */
  readonly key: string;
  readonly liftKey: string;
  /** Beats per minute that night. */
  readonly tempo: number | null;
  readonly metre: string;
  /** Played length in seconds. */
  readonly length: number | null;
  readonly countIn: string;
  /** As it is called in the key of the night. */
  readonly firstChord: string;
  readonly ending: string;
  /** Tuning in words and capo fret (0 = none), where the dep sits on a chair with strings. */
  readonly tuning: string;
  readonly capo: number;
  readonly form: readonly { readonly name: string; readonly bars: number }[];
  /** Empty = the dep does not sit in on this song. */
  readonly parts: readonly DepPart[];
  /** In playing order. */
  readonly details: readonly DepDetail[];
  readonly questions: readonly DepQuestion[];
}

export interface DepGig {
  readonly band: string;
  readonly name: string;
  readonly place: string;
  /** Calendar day, `YYYY-MM-DD`. */
  readonly date: string;
  /** When everybody is there and when playing begins, `HH:MM`; what to wear; whom to ring. Empty = not said. */
  readonly call: string;
  readonly start: string;
  readonly dress: string;
  readonly contact: string;
  /** The dep's own name. */
  readonly you: string;
  /** Names of the chairs the dep sits on, in column order. */
  readonly chairs: readonly string[];
  /** In playing order. */
  readonly songs: readonly DepSong[];
}

/** Longest question, in characters. */
export const DEP_TEXT_MAX = 500;
/** Most answers in one request. */
export const DEP_ANSWERS_MAX = 20;
/** Longest id a dep's device may give an answer, in characters: letters, digits, `-` and `_`. */
export const DEP_ID_MAX = 64;

export interface DepGotIt {
  /** Minted by the device; sent again under the same id it changes nothing more. */
  readonly id: string;
  readonly kind: "got it";
  readonly card: Id;
}

export interface DepAsk {
  readonly id: string;
  readonly kind: "ask";
  readonly song: Id;
  /** Absent or null = about the whole song. */
  readonly card?: Id | null | undefined;
  readonly text: string;
}

export type DepAnswer = DepGotIt | DepAsk;

export interface DepAnswers {
  readonly answers: readonly DepAnswer[];
}

/** What became of one answer: it is on the board and on the disk, or why not, in one sentence. */
export type DepOutcome =
  | { readonly id: string; readonly taken: true }
  | { readonly id: string; readonly taken: false; readonly sentence: string };

export interface DepAnswered {
  readonly outcomes: readonly DepOutcome[];
}
