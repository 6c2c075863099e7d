import { expect, test } from "vitest";
import { DEMO_DETAILS } from "#shared/demo/details/all-details.ts";
import { FIRST_HALF } from "#shared/demo/season/first-half.ts";
import { DEMO_HOMEWORK } from "#shared/demo/season/homework.ts";
import { roomMinutes } from "#shared/demo/season/minutes.ts";
import { NIGHTS_BEHIND } from "#shared/demo/season/nights.ts";
import { SECOND_HALF } from "#shared/demo/season/second-half.ts";
import { seasonCalendar } from "#shared/demo/season-calendar.ts";
import { DEMO_SONGS } from "#shared/demo/songs/all-songs.ts";

const REHEARSALS = [...FIRST_HALF, ...SECOND_HALF];
const EVENINGS = [...REHEARSALS, ...NIGHTS_BEHIND.map(({ night }) => night)].sort((a, b) => a.day - b.day);

test("sixteen Wednesdays in a row, the last one ten days before the Saturday", () => {
  expect(REHEARSALS.map((e) => e.day)).toEqual(Array.from({ length: 16 }, (_, i) => -115 + 7 * i));
});

test.each(REHEARSALS)(
  "the rehearsal of day $day fills 85 playing minutes without overrunning",
  ({ takes }) => {
    const minutes = takes.reduce((sum, take) => sum + roomMinutes(take), 0);
    expect(minutes).toBeGreaterThan(65);
    expect(minutes).toBeLessThanOrEqual(85);
  },
);

test("gigs behind us fit their minutes with twenty seconds between songs", () => {
  const length = new Map(DEMO_SONGS.map((s) => [s.code, s.length]));
  for (const { gig, night } of NIGHTS_BEHIND) {
    const seconds = night.takes.reduce((sum, t) => sum + (length.get(t.song) ?? 0) + 20, -20);
    expect(seconds / 60, gig.name).toBeLessThanOrEqual(gig.minutes);
    expect(seconds / 60, gig.name).toBeGreaterThan(gig.minutes - 15);
  }
});

test("the given evenings hold exactly the given takes of the six songs", () => {
  const six = ["MD", "TC", "LT", "UT", "WA", "LO"];
  const said = (day: number) =>
    REHEARSALS.find((e) => e.day === day)
      ?.takes.filter((t) => six.includes(t.song))
      .map((t) => [t.song, t.scope.of, t.feel, t.tempoStart, t.tempoEnd].join(" "));
  expect(REHEARSALS.filter((e) => e.day >= -31).map((e) => e.away)).toEqual([["Gt2"], [], ["Bs"], []]);
  expect(said(-31)).toEqual([
    "TC whole clean 94 96",
    "UT whole wobble 172 181",
    "WA sections wobble 116 116",
  ]);
  expect(said(-24)).toEqual(["MD whole wobble 113 118", "TC whole clean 94 95", "LO whole stopped 76 76"]);
  expect(said(-17)).toEqual(["MD whole clean 112 114", "LT whole clean 54 54"]);
  expect(said(-10)).toEqual([
    "MD whole clean 112 115",
    "TC whole clean 94 95",
    "LT whole clean 54 53",
    "UT whole wobble 170 179",
    "WA whole wobble 116 118",
    "LO whole wobble 76 75",
  ]);
});

test("slips and drills name cards that were written down, chairs that hold them and people who were there", () => {
  const details = new Map(DEMO_DETAILS.map((d) => [d.song, d]));
  for (const { day, away, takes } of EVENINGS) {
    for (const take of takes) {
      const known = details.get(take.song);
      const written = (known?.written ?? 0) <= day;
      const named = take.scope.of === "cards" ? take.scope.cards : [];
      for (const code of named) {
        expect(
          known?.cards.map((c) => c.code),
          `${day} ${code}`,
        ).toContain(code);
        expect(written, `${day} ${code}`).toBe(true);
      }
      for (const { card, chair } of take.slips) {
        if (chair !== null) expect(away, `${day} ${take.song}`).not.toContain(chair);
        if (card === null) continue;
        const found = known?.cards.find((c) => c.code === card);
        expect(found, `${day} ${card}`).toBeDefined();
        expect(written, `${day} ${card}`).toBe(true);
        if (chair !== null) expect(Object.keys(found?.levels ?? {}), `${day} ${card}`).toContain(chair);
      }
    }
  }
});

test("a song is played only after it was added, and sections only where the form has them", () => {
  const songs = new Map(DEMO_SONGS.map((s) => [s.code, s]));
  for (const { day, takes } of EVENINGS) {
    for (const { song, scope } of takes) {
      expect(day, song).toBeGreaterThan(songs.get(song)?.added ?? 0);
      if (scope.of !== "sections") continue;
      for (const name of scope.sections)
        expect(Object.keys(songs.get(song)?.form ?? {}), song).toContain(name);
    }
  }
  for (const { day, song } of DEMO_HOMEWORK) expect(day).toBeGreaterThan(songs.get(song)?.added ?? 0);
});

test("stopped runs and wobbles say what slipped", () => {
  const runs = EVENINGS.flatMap((e) => e.takes).filter((t) => t.kind === "run" && t.feel !== "clean");
  expect(runs.length).toBeGreaterThan(40);
  for (const { song, slips } of runs) expect(slips.length, song).toBeGreaterThan(0);
});

const ZONES = ["Europe/Lisbon", "America/Los_Angeles", "Pacific/Auckland", "Asia/Kolkata"];
const HOUR = 3_600_000;
const weekday = (day: string) => new Date(`${day}T00:00:00Z`).getUTCDay();

test.each(ZONES)(
  "at any hour of a year in %s the season is past and the gig is the nearest Saturday",
  (timeZone) => {
    const start = Date.UTC(2026, 0, 1);
    for (let hour = 0; hour < 365 * 24; hour += 5) {
      const now = start + hour * HOUR;
      const { gigDay, day, at } = seasonCalendar(now, timeZone);
      const today = new Intl.DateTimeFormat("en-CA", { timeZone }).format(now);
      const ahead = (Date.parse(gigDay) - Date.parse(today)) / (24 * HOUR);
      expect(weekday(gigDay)).toBe(6);
      expect(Math.abs(ahead - 9), today).toBeLessThanOrEqual(3);
      expect(weekday(day(-10))).toBe(3);
      expect(at(-10, 22.5), today).toBeLessThanOrEqual(now);
      expect(now - at(-10, 23)).toBeLessThan(7.1 * 24 * HOUR);
      expect([0, 7]).toContain((Date.parse(gigDay) - Date.parse(day(0))) / (24 * HOUR));
    }
  },
);

test("on the Thursday before the given week the season falls on the given dates", () => {
  const { gigDay, day } = seasonCalendar(Date.UTC(2026, 2, 5, 12), "Europe/Lisbon");
  expect([gigDay, day(-10), day(-31)]).toEqual(["2026-03-14", "2026-03-04", "2026-02-11"]);
});

test("half past seven is half past seven on either side of a change of clocks", () => {
  const { at, day } = seasonCalendar(Date.UTC(2026, 3, 9, 12), "Europe/Lisbon");
  for (const offset of [-10, -17, -24, -31]) {
    const clock = new Intl.DateTimeFormat("en-GB", { timeZone: "Europe/Lisbon", timeStyle: "short" });
    expect(clock.format(at(offset, 19.5)), day(offset)).toBe("19:30");
  }
});
