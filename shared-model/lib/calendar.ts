/**
 * Days as the band lives them: calendar days `YYYY-MM-DD` in an IANA time zone, against moments in ms since 1970.
 * Governing rule: a moment belongs to exactly one day, and `endOfDay` is the last moment that does.
 * Zone rules come from the runtime's copy of the IANA time zone database, through Intl.
 */

/** A calendar day, `YYYY-MM-DD`, proleptic Gregorian. */
export type Day = string;

const DAY_MS = 86_400_000;
const QUARTER_MS = 900_000;
/** Moments outside the years 1 to 9998 count as the first or last of these days. */
const FIRST_MS = -62_135_596_800_000 + 2 * DAY_MS;
const LAST_MS = 253_370_764_800_000 - 2 * DAY_MS;

/** True for a day that exists in the calendar. */
export const isDay = (value: unknown): value is Day => typeof value === "string" && parseDay(value) !== null;

/** True for a zone this runtime knows, e.g. `Europe/Lisbon`. */
export const isTimeZone = (value: unknown): value is string => {
  if (typeof value !== "string" || !/^[A-Za-z]/.test(value)) return false;
  try {
    zoneOf(value);
    return true;
  } catch {
    return false;
  }
};

/** The band's day at a moment. `ms` must be a number; `timeZone` a known zone (throws RangeError otherwise). */
export const dayOf = (ms: number, timeZone: string): Day => formatDay(dayNumberAt(zoneOf(timeZone), ms));

/**
 * The last millisecond of a day. Right across daylight-saving changes: such a day has 23 or 25 hours.
 * A day that a zone skipped altogether ends with the day before it.
 */
export const endOfDay = (day: Day, timeZone: string): number => {
  const zone = zoneOf(timeZone);
  const next = requireDay(day) + 1;
  const known = zone.ends.get(next);
  if (known !== undefined) return known;
  const end = steadyOffset(zone, next) ?? searchEnd(zone, next);
  zone.ends.set(next, end);
  return end;
};

/** The day `n` whole days later; negative = earlier. */
export const addDays = (day: Day, n: number): Day => {
  const moved = formatDay(requireDay(day) + n);
  if (!isDay(moved)) throw new RangeError(`${n} days from ${day} leaves the calendar`);
  return moved;
};

/** Whole days from `from` to `to`; negative when `to` comes first. */
export const daysBetween = (from: Day, to: Day): number => requireDay(to) - requireDay(from);

interface Zone {
  readonly format: Intl.DateTimeFormat;
  /** Offset from UTC (ms) at the start of a UTC day, by day number. */
  readonly offsets: Map<number, number>;
  /** Last ms before the local start of a day, by day number. */
  readonly ends: Map<number, number>;
}

const zones = new Map<string, Zone>();

const zoneOf = (timeZone: string): Zone => {
  const known = zones.get(timeZone);
  if (known) return known;
  const format = new Intl.DateTimeFormat("en-US", {
    timeZone,
    calendar: "gregory",
    numberingSystem: "latn",
    hourCycle: "h23",
    year: "numeric",
    month: "numeric",
    day: "numeric",
    hour: "numeric",
    minute: "numeric",
    second: "numeric",
  });
  const zone = { format, offsets: new Map<number, number>(), ends: new Map<number, number>() };
  zones.set(timeZone, zone);
  return zone;
};

/** Asks Intl, which costs microseconds; everything else here exists to ask it rarely. */
const offsetAt = (zone: Zone, ms: number): number => {
  const part: Record<string, number> = {};
  for (const { type, value } of zone.format.formatToParts(ms)) part[type] = Number(value);
  const { year = 1970, month = 1, day = 1, hour = 0, minute = 0, second = 0 } = part;
  const whole = Math.floor(ms / 1000) * 1000;
  return numberOf(year, month, day) * DAY_MS + ((hour * 60 + minute) * 60 + second) * 1000 - whole;
};

const offsetAtUtcDay = (zone: Zone, utcDay: number): number => {
  const known = zone.offsets.get(utcDay);
  if (known !== undefined) return known;
  const offset = offsetAt(zone, utcDay * DAY_MS);
  zone.offsets.set(utcDay, offset);
  return offset;
};

const dayNumberAt = (zone: Zone, moment: number): number => {
  if (Number.isNaN(moment)) throw new RangeError("a moment must be a number of milliseconds");
  const ms = Math.min(LAST_MS, Math.max(FIRST_MS, moment));
  const utcDay = Math.floor(ms / DAY_MS);
  const before = offsetAtUtcDay(zone, utcDay);
  const after = offsetAtUtcDay(zone, utcDay + 1);
  const offset = before === after ? before : offsetAt(zone, ms);
  return Math.floor((ms + offset) / DAY_MS);
};

/** The end by plain arithmetic when the clocks do not change anywhere near; null when they do. */
const steadyOffset = (zone: Zone, next: number): number | null => {
  const offset = offsetAtUtcDay(zone, next);
  for (const utcDay of [next - 1, next + 1]) {
    if (offsetAtUtcDay(zone, utcDay) !== offset) return null;
  }
  return next * DAY_MS - offset - 1;
};

/** Clocks put back just after midnight bring a day back, so the search runs backwards from well past its end. */
const searchEnd = (zone: Zone, next: number): number => {
  let high = (next + 2) * DAY_MS;
  while (dayNumberAt(zone, high - QUARTER_MS) >= next) high -= QUARTER_MS;
  let low = high - QUARTER_MS;
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2);
    if (dayNumberAt(zone, middle) >= next) high = middle;
    else low = middle;
  }
  return low;
};

const parseDay = (text: string): number | null => {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!match) return null;
  const number = numberOf(Number(match[1]), Number(match[2]), Number(match[3]));
  return formatDay(number) === text && Number(match[1]) > 0 ? number : null;
};

const requireDay = (day: Day): number => {
  const number = parseDay(day);
  if (number === null) throw new RangeError(`not a day of the form YYYY-MM-DD: ${day}`);
  return number;
};

/** Days since 1970-01-01. Not Date.UTC: it moves the years 0 to 99 into the twentieth century. */
const numberOf = (year: number, month: number, day: number): number =>
  new Date(0).setUTCFullYear(year, month - 1, day) / DAY_MS;

const written = new Map<number, Day>();

/** Remembered, because a rehearsal log names the same few hundred days over and over. */
const formatDay = (number: number): Day => {
  const known = written.get(number);
  if (known !== undefined) return known;
  const day = new Date(number * DAY_MS).toISOString().slice(0, 10);
  written.set(number, day);
  return day;
};
