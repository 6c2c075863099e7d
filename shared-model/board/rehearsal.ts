import type { Day } from "../lib/calendar.ts";
import type { Id } from "./ids.ts";

/** What a leader asked of one song for one evening. */
export const PINS = ["must", "not tonight"] as const;
export type Pin = (typeof PINS)[number];

/** When somebody is in the room. Nobody said anything = here all evening. */
export interface Attendance {
  readonly here: boolean;
  /** Moment (ms) from which they are there; null = from the start. */
  readonly from: number | null;
  /** Moment (ms) at which they leave; null = to the end. */
  readonly to: number | null;
}

/** What one song gets tonight: details to drill, then runs. */
export interface PlannedBlock {
  readonly song: Id;
  readonly runs: 0 | 1 | 2;
  /** Details to drill first, in this order. */
  readonly cards: readonly Id[];
  /** A section to drill as a whole; null = none. */
  readonly section: Id | null;
  readonly minutes: number;
}

/** One hired evening; at most one a band day. Its takes carry the occasion `r:<day>`. */
export interface Rehearsal {
  /** Calendar day in the band's time zone, and the id. */
  readonly day: Day;
  readonly place: string;
  /** Local time `HH:MM`; empty = nobody said. */
  readonly start: string;
  /** Minutes booked; set-up, pause and pack-down are part of them. */
  readonly booked: number;
  readonly setUp: number;
  readonly pause: number;
  readonly packDown: number;
  /** The gig it serves; null = the next one. */
  readonly gig: Id | null;
  /** Moments (ms) at which playing began and was ended; null = not yet. */
  readonly startedAt: number | null;
  readonly endedAt: number | null;
  /** What the leader chose, in playing order; empty = no plan. */
  readonly plan: readonly PlannedBlock[];
  /** By song. */
  readonly pins: ReadonlyMap<Id, Pin>;
  /** By person. */
  readonly attendance: ReadonlyMap<Id, Attendance>;
  /** Chair → who sits there tonight. */
  readonly standIns: ReadonlyMap<Id, Id>;
}

/** Days, both included, on which somebody cannot come. Why is private and stands elsewhere. */
export interface Away {
  readonly id: Id;
  readonly person: Id;
  readonly from: Day;
  readonly to: Day;
  /** Who said so; empty = unknown. */
  readonly by: Id | "";
  readonly at: number;
}

/** Minutes of an evening that nobody planned, common practice: set-up 15, a pause of 10, pack-down 10. */
export const USUAL_EVENING = { booked: 120, setUp: 15, pause: 10, packDown: 10 } as const;

/** True while somebody is in the room at a moment (ms). */
export const isHereAt = ({ here, from, to }: Attendance, at: number): boolean =>
  here && (from === null || from <= at) && (to === null || at < to);
