import { expect, test } from "vitest";
import { dayText } from "#client/pieces/day-text.ts";
import { addDays } from "#shared/lib/calendar.ts";

const TODAY = "2026-03-05";

test("a day is told with its weekday, its distance, and its year only where that differs", () => {
  expect(dayText("2026-03-14", TODAY)).toBe("Sat 14 March, in 9 days");
  expect(dayText("2025-12-31", TODAY)).toBe("Wed 31 December 2025, 64 days ago");
});

// Against the Unicode CLDR's English words for days, through Intl.
test("weekday and distance agree with the CLDR's", () => {
  const distance = new Intl.RelativeTimeFormat("en", { numeric: "auto" });
  const weekday = new Intl.DateTimeFormat("en", { weekday: "short", timeZone: "UTC" });
  for (let n = -400; n <= 400; n++) {
    const day = addDays(TODAY, n);
    const text = dayText(day, TODAY);
    expect(text.startsWith(`${weekday.format(new Date(`${day}T00:00:00Z`))} `), text).toBe(true);
    expect(text.endsWith(`, ${distance.format(n, "day")}`), text).toBe(true);
  }
});
