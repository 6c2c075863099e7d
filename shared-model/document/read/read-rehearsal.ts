import type { Attendance, Away, Pin, Rehearsal } from "../../board/rehearsal.ts";
import { compareCodeUnits } from "../order-key.ts";
import type { RootMap } from "../root-maps.ts";
import { ATTENDANCE, AWAY, pin, REHEARSAL, seat } from "../schema.ts";
import { decodeFields, decodeValue, type IssueLog } from "./decode.ts";

type Raw = ReadonlyMap<string, unknown>;

/** The raw entries of one evening, by root map, without the day. */
export interface RawRehearsal {
  readonly fields: Raw;
  readonly attendance: Raw;
  readonly standIns: Raw;
  readonly pins: Raw;
}

/** Values by id in code-unit order; `read` gives null for what is broken or says nothing. */
const valuesOf = <T>(raw: Raw, read: (id: string, value: unknown) => T | null): ReadonlyMap<string, T> => {
  const found = new Map<string, T>();
  for (const [id, value] of [...raw].sort(([a], [b]) => compareCodeUnits(a, b))) {
    const one = read(id, value);
    if (one !== null) found.set(id, one);
  }
  return found;
};

/** Decodes an evening with all that was said about it, or null when it was called off or nothing is said of it. */
export const readRehearsal = (day: string, raw: RawRehearsal, issues: IssueLog): Rehearsal | null => {
  const { deleted, ...fields } = decodeFields(
    REHEARSAL,
    raw.fields,
    "rehearsals",
    (f) => `${day}/${f}`,
    issues,
  );
  const of = (map: RootMap) => (id: string) => [map, `${day}/${id}`] as const;
  const attendance = valuesOf(raw.attendance, (id, value): Attendance | null => {
    const mark = decodeValue(ATTENDANCE, value, ...of("attendance")(id), issues);
    // What an undo leaves behind was said at no time.
    return mark === null || mark.at === 0 ? null : { here: mark.here, from: mark.from, to: mark.to };
  });
  const standIns = valuesOf(
    raw.standIns,
    (id, value) => decodeValue(seat, value, ...of("standIns")(id), issues) || null,
  );
  const pins = valuesOf(
    raw.pins,
    (id, value): Pin | null => decodeValue(pin, value, ...of("pins")(id), issues) || null,
  );
  const silent = raw.fields.size === 0 && attendance.size + standIns.size + pins.size === 0;
  return deleted || silent ? null : { day, ...fields, attendance, standIns, pins };
};

/** Decodes the days somebody is away, or null when that was taken back. */
export const readAway = (id: string, value: unknown, issues: IssueLog): Away | null => {
  const mark = decodeValue(AWAY, value, "aways", id, issues);
  if (mark === null || mark.withdrawn) return null;
  const { withdrawn: _, ...away } = mark;
  return { id, ...away };
};
