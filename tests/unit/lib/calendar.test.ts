import { expect, test } from "vitest";
import { addDays, dayOf, daysBetween, endOfDay, isDay } from "#shared/lib/calendar.ts";

test("only days that exist are days", () => {
  for (const day of ["2026-03-14", "2024-02-29", "2000-02-29", "0001-01-01", "9999-12-31"]) {
    expect(isDay(day), day).toBe(true);
  }
  for (const wrong of [
    "2026-02-29",
    "1900-02-29",
    "2026-13-01",
    "2026-00-10",
    "2026-3-4",
    "0000-01-01",
    "",
    7,
  ]) {
    expect(isDay(wrong), String(wrong)).toBe(false);
  }
});

test("days are added and counted over months, leap years and the first century", () => {
  expect(addDays("2026-02-28", 1)).toBe("2026-03-01");
  expect(addDays("2024-02-28", 1)).toBe("2024-02-29");
  expect(addDays("2026-01-01", -1)).toBe("2025-12-31");
  expect(addDays("0099-12-31", 1)).toBe("0100-01-01");
  expect(daysBetween("2026-03-04", "2026-03-14")).toBe(10);
  expect(daysBetween("2026-03-14", "2026-03-04")).toBe(-10);
});

test("a day that is none is a programmer's mistake", () => {
  expect(() => addDays("14.3.2026", 1)).toThrow(RangeError);
  expect(() => addDays("9999-12-31", 1)).toThrow(/leaves the calendar/);
  expect(() => dayOf(Number.NaN, "UTC")).toThrow(RangeError);
  expect(() => dayOf(0, "Mars/Base")).toThrow(RangeError);
});

test("moments beyond the calendar count as its first or last days instead of failing", () => {
  expect(isDay(dayOf(Number.MAX_VALUE, "Europe/Lisbon"))).toBe(true);
  expect(isDay(dayOf(-Infinity, "Europe/Lisbon"))).toBe(true);
});

test("a moment between two milliseconds belongs to the day it is in", () => {
  const end = endOfDay("2026-03-14", "Europe/Lisbon");
  expect(dayOf(end + 0.5, "Europe/Lisbon")).toBe("2026-03-14");
});
