/** From when to when an evening is played, who is in the room in which stretch of it, and when each block begins. */
import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { type Attendance, isHereAt, type Rehearsal } from "../board/rehearsal.ts";
import type { Phase } from "../plan/evening-plan.ts";
import { attendanceOf, momentOn, playingMinutes } from "./evenings.ts";

const MINUTE = 60_000;

/** The time there is to plan. */
export interface PlayStretch {
  /** Moment (ms) at which it begins; null = nobody said when. */
  readonly begin: number | null;
  /** Minutes to play, the pause left out. */
  readonly minutes: number;
  /** Minutes of pause that are still to come. */
  readonly pause: number;
}

/** True while an evening is being played. */
const isOn = ({ startedAt, endedAt }: Pick<Rehearsal, "startedAt" | "endedAt">): boolean =>
  startedAt !== null && endedAt === null;

/** What there is to plan of an evening at a moment (ms): all of it, or the rest of it once it has begun. */
export const stretchOf = (evening: Rehearsal, timeZone: string, now: number): PlayStretch => {
  const { day, start, setUp, pause, startedAt } = evening;
  const minutes = playingMinutes(evening);
  if (startedAt !== null && isOn(evening)) {
    const past = Math.max(0, (now - startedAt) / MINUTE);
    const rest = past < minutes / 2 ? pause : 0;
    const left = minutes + pause - past - rest;
    return { begin: Math.max(now, startedAt), minutes: Math.max(0, Math.floor(left)), pause: rest };
  }
  const doors = momentOn(day, start, timeZone);
  const begin = startedAt ?? (doors === null ? null : doors + setUp * MINUTE);
  return { begin, minutes, pause };
};

/** The stretches of an evening, each with its people. */
export interface Phased {
  readonly phases: readonly Phase[];
  /** Minutes after the beginning, pause counted in, at which the second stretch begins; null = there is one only. */
  readonly cut: number | null;
}

type Room = Pick<Board, "people" | "aways">;

/**
 * One stretch, or two where somebody comes late or leaves early: the cut is the first such moment, and in what is left
 * those count who are there all through. Where nobody said when playing begins, times mean nothing: only who is there all
 * evening counts.
 */
export const phasesOf = (board: Room, evening: Rehearsal, { begin, minutes, pause }: PlayStretch): Phased => {
  const said = [...board.people.keys()].map(
    (person) => [person, attendanceOf(board, evening, person)] as const,
  );
  const standIns: Readonly<Record<Id, Id>> = Object.fromEntries(
    [...evening.standIns].filter(([, member]) => board.people.has(member)),
  );
  const those = (is: (attendance: Attendance) => boolean): ReadonlySet<Id> =>
    new Set(said.flatMap(([person, attendance]) => (is(attendance) ? [person] : [])));
  if (begin === null) {
    const present = those(({ here, from, to }) => here && from === null && to === null);
    return { phases: [{ minutes, present, standIns }], cut: null };
  }
  const end = begin + (minutes + pause) * MINUTE;
  const moments = said
    .flatMap(([, { here, from, to }]) => (here ? [from, to] : []))
    .filter((at): at is number => at !== null && at > begin && at < end);
  const atStart = those((attendance) => isHereAt(attendance, begin));
  if (moments.length === 0) return { phases: [{ minutes, present: atStart, standIns }], cut: null };
  const at = Math.min(...moments);
  const cut = (at - begin) / MINUTE;
  // The pause lies in the middle of the playing.
  const half = minutes / 2;
  const first = cut <= half ? cut : Math.max(half, cut - pause);
  const toTheEnd = those((attendance) => isHereAt(attendance, at) && (attendance.to ?? end) >= end);
  const phases = [
    { minutes: first, present: atStart, standIns },
    { minutes: minutes - first, present: toTheEnd, standIns },
  ];
  return { phases, cut };
};

/** Minutes after the beginning, the pause counted in. */
export interface BlockTime {
  readonly from: number;
  readonly to: number;
}

/**
 * When each block begins and ends. The pause comes before the first block that begins after half of the playing; nothing
 * begins before its `earliest`.
 */
export const blockTimes = (
  blocks: readonly { readonly minutes: number; readonly earliest?: number }[],
  pause: number,
): readonly BlockTime[] => {
  const half = blocks.reduce((sum, { minutes }) => sum + minutes, 0) / 2;
  let played = 0;
  let at = 0;
  let paused = false;
  return blocks.map(({ minutes, earliest = 0 }) => {
    if (!paused && played > 0 && played >= half) {
      paused = true;
      at += pause;
    }
    const from = Math.max(at, earliest);
    played += minutes;
    at = from + minutes;
    return { from, to: at };
  });
};
