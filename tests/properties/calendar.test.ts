import fc from "fast-check";
import { expect, test } from "vitest";
import { addDays, dayOf, daysBetween, endOfDay } from "#shared/lib/calendar.ts";
import { laws } from "#tests/support/fuzz.ts";

const zone = fc.constantFrom(
  "UTC", "Europe/Lisbon", "Europe/Berlin", "America/New_York", "America/St_Johns", "America/Sao_Paulo",
  "Asia/Kathmandu", "Asia/Beirut", "Australia/Lord_Howe", "Pacific/Apia", "Pacific/Chatham", "Africa/Casablanca",
); // biome-ignore format: one glance
const moment = fc.integer({ min: Date.UTC(1990, 0, 1), max: Date.UTC(2040, 0, 1) });

/** The same question put to Intl by another route, without any of the shortcuts. */
const dayByIntl = (ms: number, timeZone: string): string =>
  new Intl.DateTimeFormat("sv-SE", { timeZone, year: "numeric", month: "2-digit", day: "2-digit" }).format(
    ms,
  );

test("the day of a moment is the one Intl prints", () => {
  fc.assert(
    fc.property(moment, zone, (ms, timeZone) => {
      expect(dayOf(ms, timeZone)).toBe(dayByIntl(ms, timeZone));
    }),
    laws(),
  );
});

test("a day ends at or after each of its moments, and the next moment is another day", () => {
  fc.assert(
    fc.property(moment, zone, (ms, timeZone) => {
      const day = dayOf(ms, timeZone);
      const end = endOfDay(day, timeZone);
      expect(end).toBeGreaterThanOrEqual(ms);
      expect(dayByIntl(end, timeZone)).toBe(day);
      expect(dayByIntl(end + 1, timeZone) > day).toBe(true);
    }),
    laws(),
  );
});

test("adding and counting days undo each other", () => {
  const day = fc.integer({ min: -300_000, max: 300_000 }).map((n) => addDays("2026-03-14", n));
  fc.assert(
    fc.property(day, fc.integer({ min: -100_000, max: 100_000 }), (from, n) => {
      expect(daysBetween(from, addDays(from, n))).toBe(n);
    }),
    laws(),
  );
});
