import { addDays, dayOf } from "./calendar.ts";
import { dayWords } from "./day-words.ts";

/** Making one costs far more than using it, and lists ask for thousands of times of day. */
const formats = new Map<string, Intl.DateTimeFormat>();

/** The time of day of a moment (ms) in a zone, `14:05`. */
export const clockWords = (ms: number, timeZone: string): string => {
  const format =
    formats.get(timeZone) ??
    new Intl.DateTimeFormat("en-GB", { hour: "2-digit", minute: "2-digit", hourCycle: "h23", timeZone });
  formats.set(timeZone, format);
  return format.format(ms);
};

/** A moment (ms) as one says it at `now`: `today at 14:05`, `yesterday at 09:30`, `on 4 March`. */
export const momentWords = (ms: number, now: number, timeZone: string): string => {
  const [day, today] = [dayOf(ms, timeZone), dayOf(now, timeZone)];
  if (day === today) return `today at ${clockWords(ms, timeZone)}`;
  if (day === addDays(today, -1)) return `yesterday at ${clockWords(ms, timeZone)}`;
  return `on ${dayWords(day, { today })}`;
};
