import type { Id } from "../board/ids.ts";
import type { SongLog } from "./log.ts";
import type { PlayingPart } from "./plan.ts";

/**
 * Who was there: per take of a log (by its place in it) and playing part (by its column, the part's index in the
 * plan). Asked for every unit, so the seats are read once.
 */
export interface Attendance {
  /** Column of a chair; −1 for one that does not play. */
  readonly column: (chair: Id) => number;
  /** Anybody sat there. */
  readonly taken: (place: number, column: number) => boolean;
  /** This line-up's holder of the chair sat there. */
  readonly held: (place: number, column: number) => boolean;
}

const TAKEN = 1;
const HELD = 2;

/** A member counts as on a chair when any seat of the take says so. */
export const readAttendance = (log: SongLog, parts: readonly PlayingPart[]): Attendance => {
  const columns = new Map(parts.map(({ chair }, column) => [chair, column]));
  const width = parts.length;
  const marks = new Uint8Array(log.length * width);
  for (const { take, place } of log) {
    for (const { chair, member } of take.seats) {
      const column = columns.get(chair);
      if (column === undefined) continue;
      const cell = place * width + column;
      marks[cell] = (marks[cell] ?? 0) | TAKEN | (parts[column]?.holder === member ? HELD : 0);
    }
  }
  return {
    column: (chair) => columns.get(chair) ?? -1,
    taken: (place, column) => marks[place * width + column] !== 0,
    held: (place, column) => ((marks[place * width + column] ?? 0) & HELD) !== 0,
  };
};
