/** Who is in the room tonight, and therefore who sat where in a take. */
import type { Chair } from "../board/band.ts";
import type { Board, SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { castingOf, type GigSeats, lineUpFor } from "../board/line-up.ts";
import { type Attendance, isHereAt, type Rehearsal } from "../board/rehearsal.ts";
import type { Seat } from "../board/take.ts";
import { clockWords } from "../lib/moment-words.ts";
import { listed, type Names } from "../readiness/names.ts";

/** As of one moment of an evening; everybody else of the band is taken to be there. */
export interface WhoIsHere {
  /** Members who are not there. */
  readonly away: readonly Id[];
  /** Chair → who sits on it while its usual player is away, or because nobody holds it. */
  readonly standIns: Readonly<Record<Id, Id>>;
}

export const EVERYBODY: WhoIsHere = { away: [], standIns: {} };

type People = Pick<Board, "chairs" | "people">;

/**
 * The seats of a take. In the room: the usual line-up without those who are away, stand-ins on the chairs left empty.
 * At a gig: the gig's own line-up. Chairs with nothing to play in the song are left out.
 */
export const seatsFor = (
  board: People,
  file: SongFile,
  here: WhoIsHere,
  gig: GigSeats | null,
): readonly Seat[] => {
  const lineUp = lineUpFor(board, file, gig);
  const away = new Set(gig === null ? here.away : []);
  return board.chairs.flatMap(({ id: chair }): Seat[] => {
    if (!castingOf(file, chair).plays) return [];
    const usual = lineUp.get(chair) ?? null;
    const standIn = gig === null ? (here.standIns[chair] ?? null) : null;
    const member = usual === null || away.has(usual) ? standIn : usual;
    return member !== null && board.people.has(member) && !away.has(member) ? [{ chair, member }] : [];
  });
};

/** Chairs whose usual player is away, and vacant ones: where somebody could sit in. */
export const emptyChairs = ({ chairs, people }: People, { away }: WhoIsHere): readonly Chair[] =>
  chairs.filter(({ holder }) => holder === null || !people.has(holder) || away.includes(holder));

/** The members a band expects: those who hold a chair. Deps come in by sitting on one. */
export const expected = ({ chairs, people }: People): readonly Id[] =>
  [...people.keys()].filter((id) => chairs.some(({ holder }) => holder === id));

/** With somebody marked away, or there after all. Stand-ins leave chairs that are filled again. */
export const withPresence = (board: People, here: WhoIsHere, member: Id, present: boolean): WhoIsHere => {
  const away = here.away.filter((id) => id !== member).concat(present ? [] : [member]);
  const free = new Set(emptyChairs(board, { away, standIns: {} }).map(({ id }) => id));
  const standIns = Object.fromEntries(
    Object.entries(here.standIns).filter(([chair, sitsIn]) => free.has(chair) && !away.includes(sitsIn)),
  );
  return { away, standIns };
};

/** With somebody sitting in on a chair; null = nobody. */
export const withStandIn = (here: WhoIsHere, chair: Id, member: Id | null): WhoIsHere => ({
  ...here,
  standIns: Object.fromEntries([
    ...Object.entries(here.standIns).filter(([other]) => other !== chair),
    ...(member === null ? [] : [[chair, member]]),
  ]),
});

/** In words: `everybody`, `everybody but Ifeoma Adisalu, Karim Belhossat on Bass`. */
export const hereWords = (board: People, { away, standIns }: WhoIsHere, names: Names): string => {
  const missing = away.filter((id) => board.people.has(id)).map(names.member);
  const sitting = board.chairs.flatMap(({ id }) => {
    const member = standIns[id];
    return member === undefined ? [] : [`${names.member(member)} on ${names.chair(id)}`];
  });
  const all = missing.length === 0 ? "everybody" : `everybody but ${listed(missing)}`;
  return [all, ...sitting].join(", ");
};

const ALL_EVENING: Attendance = { here: true, from: null, to: null };

/**
 * Who is in the room at a moment (ms), as the evening's record tells it; `at` null = at any time of it. Nobody said
 * anything = everybody, all evening.
 */
export const presentAt = (
  rehearsal: Pick<Rehearsal, "attendance" | "standIns"> | undefined,
  at: number | null,
): WhoIsHere => {
  if (rehearsal === undefined) return EVERYBODY;
  const present = (attendance: Attendance): boolean =>
    at === null ? attendance.here : isHereAt(attendance, at);
  return {
    away: [...rehearsal.attendance].flatMap(([person, said]) => (present(said) ? [] : [person])),
    standIns: Object.fromEntries(rehearsal.standIns),
  };
};

/** What to write so that the record tells `after`: arguments of `sayWhoIsHere` and of `standIn`. */
export interface PresenceChange {
  readonly say: readonly ({ readonly person: Id } & Attendance)[];
  readonly sit: readonly { readonly chair: Id; readonly member: Id | "" }[];
}

/**
 * What changed between two answers. While the evening is being played (`now` = the moment, else null) somebody who is
 * marked away has left just now, and somebody who is there again has just come: what was played before stays theirs.
 */
export const presenceChange = (
  before: WhoIsHere,
  after: WhoIsHere,
  attendance: ReadonlyMap<Id, Attendance>,
  now: number | null,
): PresenceChange => {
  const left = after.away.filter((person) => !before.away.includes(person));
  const came = before.away.filter((person) => !after.away.includes(person));
  const known = (person: Id): Attendance => attendance.get(person) ?? ALL_EVENING;
  const chairs = new Set([...Object.keys(before.standIns), ...Object.keys(after.standIns)]);
  return {
    say: [
      ...left.map((person) =>
        now === null
          ? { person, here: false, from: null, to: null }
          : { person, here: true, from: known(person).from, to: now },
      ),
      ...came.map((person) => {
        const { here, from, to } = known(person);
        if (now === null) return { person, ...ALL_EVENING };
        // Somebody who stepped out is back: their evening goes on.
        const back = here && to !== null && (from === null || from <= now);
        return { person, here: true, from: back ? from : now, to: null };
      }),
    ],
    sit: [...chairs]
      .filter((chair) => before.standIns[chair] !== after.standIns[chair])
      .map((chair) => ({ chair, member: after.standIns[chair] ?? "" })),
  };
};

/** When somebody came or goes, where that is not all evening: `from 20:30`, `left at 21:40`; else empty. */
export const attendanceWords = (said: Attendance | undefined, now: number, timeZone: string): string => {
  if (said === undefined) return "";
  if (!said.here) return "not here";
  const { from, to } = said;
  const words = [
    from === null ? "" : `${from > now ? "comes at" : "from"} ${clockWords(from, timeZone)}`,
    to === null ? "" : `${to > now ? "until" : "left at"} ${clockWords(to, timeZone)}`,
  ];
  return words.filter((word) => word !== "").join(", ");
};
