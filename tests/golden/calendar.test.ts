/**
 * Days against published changes of clock. Source of every date and offset: the IANA time zone database
 * (files europe, northamerica, southamerica, australasia, asia), rule named beside each row.
 */
import { expect, test } from "vitest";
import { addDays, dayOf, endOfDay, isTimeZone } from "#shared/lib/calendar.ts";

const HOUR = 3_600_000;

/** Zone, day, how many hours the day has, the first moment of the next day in UTC. */
const days: readonly (readonly [string, string, number, string])[] = [
  // Rule EU: clocks go forward on the last Sunday of March and back on the last Sunday of October, 01:00 UTC.
  ["Europe/Berlin", "2026-03-29", 23, "2026-03-29T22:00:00Z"],
  ["Europe/Berlin", "2026-10-25", 25, "2026-10-25T23:00:00Z"],
  ["Europe/London", "2026-03-29", 23, "2026-03-29T23:00:00Z"],
  ["Europe/Lisbon", "2026-10-25", 25, "2026-10-26T00:00:00Z"],
  // Rule US since 2007: second Sunday of March and first Sunday of November, 02:00 local.
  ["America/New_York", "2026-03-08", 23, "2026-03-09T04:00:00Z"],
  ["America/New_York", "2026-11-01", 25, "2026-11-02T05:00:00Z"],
  // Zone America/St_Johns until 2011: changes at 00:01 local, so a day comes back for an hour after midnight.
  ["America/St_Johns", "2010-11-06", 25, "2010-11-07T03:30:00Z"],
  // Rule Brazil: 2018-02-18 00:00 back to 23:00 on the 17th; 2018-11-04 00:00 forward, a day without midnight.
  ["America/Sao_Paulo", "2018-02-17", 25, "2018-02-18T03:00:00Z"],
  ["America/Sao_Paulo", "2018-11-03", 24, "2018-11-04T03:00:00Z"],
  ["America/Sao_Paulo", "2018-11-04", 23, "2018-11-05T02:00:00Z"],
  // Rule LH: Lord Howe Island changes by half an hour.
  ["Australia/Lord_Howe", "2026-10-04", 23.5, "2026-10-04T13:00:00Z"],
  // No changes: India +05:30, Nepal +05:45, Kiritimati +14.
  ["Asia/Kolkata", "2026-06-01", 24, "2026-06-01T18:30:00Z"],
  ["Asia/Kathmandu", "2026-06-01", 24, "2026-06-01T18:15:00Z"],
  ["Pacific/Kiritimati", "2026-06-01", 24, "2026-06-01T10:00:00Z"],
  ["Pacific/Pago_Pago", "2026-06-01", 24, "2026-06-02T11:00:00Z"],
];

test.each(days)("%s %s has %d hours", (zone, day, hours, next) => {
  const end = endOfDay(day, zone);
  expect(new Date(end + 1).toISOString()).toBe(new Date(next).toISOString());
  expect(dayOf(end, zone)).toBe(day);
  expect(dayOf(end + 1, zone)).not.toBe(day);
  expect((end - endOfDay(addDays(day, -1), zone)) / HOUR).toBe(hours);
});

test("Samoa skipped 2011-12-30 when it crossed the date line (zone Pacific/Apia)", () => {
  const lastOfThe29th = Date.parse("2011-12-30T10:00:00Z") - 1;
  expect(dayOf(lastOfThe29th, "Pacific/Apia")).toBe("2011-12-29");
  expect(dayOf(lastOfThe29th + 1, "Pacific/Apia")).toBe("2011-12-31");
  expect(endOfDay("2011-12-29", "Pacific/Apia")).toBe(lastOfThe29th);
  expect(endOfDay("2011-12-30", "Pacific/Apia")).toBe(lastOfThe29th);
});

test("offsets with seconds are kept (zone Africa/Monrovia, -0:44:30 until 1972-01-07)", () => {
  expect(endOfDay("1971-06-01", "Africa/Monrovia")).toBe(Date.parse("1971-06-02T00:44:30Z") - 1);
});

test("St John's went back from 00:01 on 2010-11-07 to 23:01 on the 6th", () => {
  expect(dayOf(Date.parse("2010-11-07T02:30:30Z"), "America/St_Johns")).toBe("2010-11-07");
  expect(dayOf(Date.parse("2010-11-07T02:31:30Z"), "America/St_Johns")).toBe("2010-11-06");
});

test("zone names are those of the IANA database", () => {
  for (const zone of ["UTC", "Europe/Lisbon", "America/Argentina/Ushuaia"])
    expect(isTimeZone(zone)).toBe(true);
  for (const wrong of ["", "Mars/Base", "+02:00", "Europe/", 7, null]) expect(isTimeZone(wrong)).toBe(false);
});
