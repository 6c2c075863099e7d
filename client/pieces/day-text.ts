import { type Day, daysBetween } from "#shared/lib/calendar.ts";
import { daysToGo, dayWords } from "#shared/lib/day-words.ts";

/** A day in words and how far it is: `Sat 14 March, in 9 days`. Throws RangeError for what is not a day. */
export const dayText = (day: Day, today: Day): string =>
  `${dayWords(day, { weekday: true, today })}, ${daysToGo(daysBetween(today, day))}`;
