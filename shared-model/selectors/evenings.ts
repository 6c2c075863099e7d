/** Rehearsal evenings as screens ask for them: when, how long, who is in the room, who is missing. */

import { awayOn } from "../board/away-on.ts";
import type { Chair, Gig } from "../board/band.ts";
import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { seatMeant } from "../board/line-up.ts";
import { type Attendance, isHereAt, type Rehearsal, USUAL_EVENING } from "../board/rehearsal.ts";
import { type Day, dayOf, endOfDay } from "../lib/calendar.ts";
import { listed, type Names } from "../readiness/names.ts";
import type { WhoIsHere } from "./seating.ts";

const NOBODY_SAID: ReadonlyMap<Id, never> = new Map<Id, never>();

/** The evening of a day; where nothing was said of it, as evenings usually are. */
export const eveningOn = (board: Pick<Board, "rehearsals">, day: Day): Rehearsal =>
  board.rehearsals.find((rehearsal) => rehearsal.day === day) ?? {
    day,
    place: "",
    start: "",
    ...USUAL_EVENING,
    gig: null,
    startedAt: null,
    endedAt: null,
    plan: [],
    pins: NOBODY_SAID,
    attendance: NOBODY_SAID,
    standIns: NOBODY_SAID,
  };

/** Evenings from a day on, the next one first. */
export const eveningsAhead = ({ rehearsals }: Pick<Board, "rehearsals">, today: Day): readonly Rehearsal[] =>
  rehearsals.filter(({ day }) => day >= today);

/** The latest evening that was planned, as the next one is likely to be; undefined = none yet. */
export const lastEvening = ({ rehearsals }: Pick<Board, "rehearsals">): Rehearsal | undefined =>
  rehearsals.at(-1);

/** When, how long and where, in words: `19:30 · 120 minutes, 85 of them to play · Cellar room`. */
export const eveningWords = (rehearsal: Rehearsal): string =>
  [
    rehearsal.start,
    `${rehearsal.booked} minutes, ${playingMinutes(rehearsal)} of them to play`,
    rehearsal.place,
  ]
    .filter((part) => part !== "")
    .join(" · ");

/** Minutes that are left for playing once set-up, pause and pack-down are taken off; never below 0. */
export const playingMinutes = ({
  booked,
  setUp,
  pause,
  packDown,
}: Pick<Rehearsal, "booked" | "setUp" | "pause" | "packDown">): number =>
  Math.max(0, booked - setUp - pause - packDown);

/** The gig an evening serves: the one that was named, else the next one on or after it; null = none is ahead. */
export const gigOfEvening = (
  board: Pick<Board, "gigs">,
  { gig, day }: Pick<Rehearsal, "gig" | "day">,
): Gig | null =>
  board.gigs.find(({ id }) => id === gig) ?? board.gigs.find(({ date }) => date >= day) ?? null;

type Room = Pick<Board, "people" | "aways">;

/** When somebody is in the room: what was said for the evening, else not at all where they said they are away, else all of it. */
export const attendanceOf = (
  board: Room,
  { day, attendance }: Pick<Rehearsal, "day" | "attendance">,
  person: Id,
): Attendance =>
  attendance.get(person) ?? { here: !awayOn(board, day).includes(person), from: null, to: null };

/** The evening with those who said they are away that day as not there, where nothing else was said of them. */
export const withAways = (board: Room, evening: Rehearsal): Rehearsal => {
  const silent = awayOn(board, evening.day).filter((person) => !evening.attendance.has(person));
  if (silent.length === 0) return evening;
  const gone = silent.map((person) => [person, { here: false, from: null, to: null }] as const);
  return { ...evening, attendance: new Map([...evening.attendance, ...gone]) };
};

/**
 * Who is in the room at a moment (ms), as seats are made from it: who does not come, has not come yet or has left counts as
 * away, and gets no evidence from what is played then.
 */
export const hereAt = (board: Room, rehearsal: Rehearsal, at: number): WhoIsHere => ({
  away: [...board.people.keys()].filter((person) => !isHereAt(attendanceOf(board, rehearsal, person), at)),
  standIns: Object.fromEntries([...rehearsal.standIns].filter(([, member]) => board.people.has(member))),
});

/** Somebody who is missing, and the chairs that are empty without them. */
export interface Missing {
  readonly person: Id;
  readonly chairs: readonly Chair[];
}

/** Who of those that hold a chair is away on a day. For a gig its own line-up says who sits where. */
export const missingOn = (
  board: Pick<Board, "aways" | "people" | "chairs">,
  day: Day,
  gig: Pick<Gig, "lineUp"> | null = null,
): readonly Missing[] =>
  awayOn(board, day).flatMap((person) => {
    const chairs = board.chairs.filter((chair) => seatMeant(chair, gig) === person);
    return chairs.length === 0 ? [] : [{ person, chairs }];
  });

/** In words: `Away: Min-jae Pardal (Bass)`; empty while nobody is missing. */
export const missingWords = (missing: readonly Missing[], names: Names): string =>
  missing.length === 0
    ? ""
    : `Away: ${listed(
        missing.map(
          ({ person, chairs }) => `${names.member(person)} (${listed(chairs.map(({ name }) => name))})`,
        ),
      )}`;

/** Minutes of a clock time `HH:MM` into its day; null for none. */
const minutesOf = (clock: string): number | null => {
  const match = /^(\d\d):(\d\d)$/.exec(clock);
  return match === null ? null : Number(match[1]) * 60 + Number(match[2]);
};

/**
 * The moment (ms) of a local clock time `HH:MM` on a day of the band; null where there is none. On the days the clocks change
 * it is right for times after the change.
 */
export const momentOn = (day: Day, clock: string, timeZone: string): number | null => {
  const minutes = minutesOf(clock);
  if (minutes === null) return null;
  // From the day's end backwards: the clocks are put forward or back in the night.
  const moment = endOfDay(day, timeZone) + 1 - (24 * 60 - minutes) * 60_000;
  return dayOf(moment, timeZone) === day ? moment : null;
};
