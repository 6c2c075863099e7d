import { expect, test } from "vitest";
import { dayWords } from "#shared/lib/day-words.ts";

test("a day is said without its year, and with it when it is another", () => {
  expect(dayWords("2026-03-04")).toBe("4 March");
  expect(dayWords("2026-03-04", { today: "2026-12-31" })).toBe("4 March");
  expect(dayWords("2025-12-31", { today: "2026-01-01" })).toBe("31 December 2025");
});

// The runtime's Intl (Unicode CLDR, en-GB) names the same weekdays and months.
test("weekdays and months agree with Intl over four years", () => {
  const intl = new Intl.DateTimeFormat("en-GB", {
    weekday: "short",
    day: "numeric",
    month: "long",
    timeZone: "UTC",
  });
  for (let day = Date.UTC(2024, 0, 1); day < Date.UTC(2028, 0, 1); day += 86_400_000) {
    const iso = new Date(day).toISOString().slice(0, 10);
    const parts = new Map(intl.formatToParts(day).map(({ type, value }) => [type, value]));
    const said = `${parts.get("weekday")} ${parts.get("day")} ${parts.get("month")}`;
    expect(dayWords(iso, { weekday: true })).toBe(said);
  }
});

test("what is not a day is a programmer's mistake", () => {
  expect(() => dayWords("4 March")).toThrow(RangeError);
});
