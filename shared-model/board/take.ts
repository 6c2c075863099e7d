import type { Id } from "./ids.ts";

export const TAKE_KINDS = ["solo", "drill", "run", "gig"] as const;
export type TakeKind = (typeof TAKE_KINDS)[number];

/** How it went, best first. */
export const FEELS = ["clean", "wobble", "stopped"] as const;
export type Feel = (typeof FEELS)[number];

/** How bad a slip was; 0 withdraws it. */
export const SEVERITIES = [0.5, 1, 2] as const;
export type Severity = (typeof SEVERITIES)[number];

/** What a take covered. */
export type Scope =
  | { readonly of: "whole" }
  | { readonly of: "sections"; readonly sections: readonly Id[] }
  | { readonly of: "cards"; readonly cards: readonly Id[] };

/** Who sat on which chair during a take. */
export interface Seat {
  readonly chair: Id;
  readonly member: Id;
}

/** One thing that went wrong in a take. Neither chair nor card = nobody could say whose it was. */
export interface Slip {
  readonly chair: Id | null;
  readonly card: Id | null;
  readonly severity: Severity;
  readonly at: number;
  readonly writer: Id;
}

/** One entry of the rehearsal log, merged over everybody who logged it. */
export interface Take {
  /** `occasion/song/no`, plus `~2`, `~3`… when two writers gave one number to different takes. */
  readonly id: string;
  readonly song: Id;
  /** `r:2026-03-04` a rehearsal day, `g:gigId` a gig, `s:memberId:2026-03-04` one member's day alone. */
  readonly occasion: string;
  readonly no: number;
  readonly kind: TakeKind;
  /** Moment (ms) it was logged: the earliest over its writers. */
  readonly at: number;
  readonly seats: readonly Seat[];
  readonly scope: Scope;
  readonly feel: Feel;
  /** Beats per minute as measured; null where nobody did. */
  readonly tempoStart: number | null;
  readonly tempoEnd: number | null;
  /** Key it was played in when that differs from the song's key at the time; else null. */
  readonly key: string | null;
  readonly slips: readonly Slip[];
  /** Devices that logged it, in code-unit order. */
  readonly writers: readonly Id[];
  /** People who logged it, as their devices say, in code-unit order; absent or empty = nobody said who they are. */
  readonly by?: readonly Id[];
}
