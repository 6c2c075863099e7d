import { addDays, type Day, dayOf, daysBetween, endOfDay } from "../lib/calendar.ts";
import type { SeasonDay } from "./demo-data.ts";

/** A Saturday; weeks are counted from it. */
const SOME_SATURDAY = "1970-01-03";
const WEDNESDAY = 4;
const HOUR = 3_600_000;

/** Days between the last rehearsal and the season's Saturday. */
const LAST_REHEARSAL: SeasonDay = -10;
const GIG_AHEAD = 9;

/** The demo's days laid over the real calendar. */
export interface SeasonCalendar {
  /** The first gig ahead: the Saturday nearest to nine days ahead. */
  readonly gigDay: Day;
  /** Calendar day of a day of the season. */
  readonly day: (offset: SeasonDay) => Day;
  /** Moment (ms) at a local hour of a day of the season, e.g. 19.5 = half past seven in the evening. */
  readonly at: (offset: SeasonDay, hour: number) => number;
}

/** Days since the last Saturday, 0 to 6. */
const daysPastSaturday = (day: Day): number => ((daysBetween(SOME_SATURDAY, day) % 7) + 7) % 7;

/** Counted back from the day's end, so evenings stay right on days when the clocks change in the night. */
const momentOf = (day: Day, hour: number, timeZone: string): number =>
  endOfDay(day, timeZone) + 1 - (24 - hour) * HOUR;

/**
 * Lays the season over the calendar so that all of it is past and the first gig lies 6 to 12 days ahead.
 * History is one block that ends with the latest Wednesday evening behind us: from Monday to Wednesday it therefore
 * ends seventeen days before the gig, on other days ten.
 */
export const seasonCalendar = (now: number, timeZone: string): SeasonCalendar => {
  const today = dayOf(now, timeZone);
  const target = addDays(today, GIG_AHEAD);
  const past = daysPastSaturday(target);
  const gigDay = addDays(target, past <= 3 ? -past : 7 - past);
  const sinceWednesday = (daysPastSaturday(today) - WEDNESDAY + 7) % 7;
  const wednesday = addDays(today, -sinceWednesday);
  const over = momentOf(wednesday, 23, timeZone) <= now;
  const seasonSaturday = addDays(wednesday, (over ? 0 : -7) - LAST_REHEARSAL);
  const day = (offset: SeasonDay): Day => addDays(seasonSaturday, offset);
  return { gigDay, day, at: (offset, hour) => momentOf(day(offset), hour, timeZone) };
};
