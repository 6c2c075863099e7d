import type { Day } from "./calendar.ts";

const MONTHS = "January February March April May June July August September October November December".split(
  " ",
);
const WEEKDAYS = ["Sun", "Mon", "Tue", "Wed", "Thu", "Fri", "Sat"] as const;

/**
 * A day in words, `4 March`, or `Wed 4 March` with its weekday. The year is said only where it differs from that of
 * `today`: `4 March 2025`. Throws RangeError for what is not a day.
 */
export const dayWords = (
  day: Day,
  { weekday = false, today }: { readonly weekday?: boolean; readonly today?: Day } = {},
): string => {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day);
  const month = MONTHS[Number(match?.[2]) - 1];
  if (!match || month === undefined) throw new RangeError(`not a day of the form YYYY-MM-DD: ${day}`);
  const name = weekday ? `${WEEKDAYS[new Date(`${day}T00:00:00Z`).getUTCDay()]} ` : "";
  const year = today !== undefined && today.slice(0, 4) !== match[1] ? ` ${match[1]}` : "";
  return `${name}${Number(match[3])} ${month}${year}`;
};

/** The moment between now and the gig: `today`, `tomorrow`, `in 9 days`, `3 days ago`. `days` is whole days ahead. */
export const daysToGo = (days: number): string => {
  if (days === 0) return "today";
  if (Math.abs(days) === 1) return days > 0 ? "tomorrow" : "yesterday";
  return days > 0 ? `in ${days} days` : `${-days} days ago`;
};
