import { expect, test } from "vitest";
import type { Gig } from "#shared/board/band.ts";
import type { SongFile } from "#shared/board/board.ts";
import { DEFAULT_SETTINGS } from "#shared/board/settings.ts";
import { daysToGo } from "#shared/lib/day-words.ts";
import { namesOf } from "#shared/readiness/names.ts";
import { belowTheLine, gigOutlook, sameOutlook, seatSentence } from "#shared/selectors/gig-outlook.ts";
import { aReading, CROWD, SEATED } from "#tests/support/a-row.ts";
import { NOTHING_AGREED } from "#tests/support/plain-gig.ts";
import { asked, readyFile } from "#tests/support/ready-song.ts";

const renamed = (id: string, change: Partial<SongFile["song"]> = {}, takes = readyFile().takes): SongFile => {
  const file = readyFile();
  return { ...file, song: { ...file.song, id, title: id, ...change }, takes };
};

const gigOf = (songs: readonly string[], lineUp: Gig["lineUp"] = new Map()): Gig => ({
  id: "gig",
  name: "",
  place: "",
  date: "2026-02-01",
  minutes: 25,
  ...NOTHING_AGREED,
  songs: songs.map((song) => ({
    song,
    order: song,
    key: null,
    tempo: null,
    tuning: null,
    block: 0,
    pin: "" as const,
  })),
  lineUp,
  waivers: [],
});

const outlookOf = (files: readonly SongFile[], gig: Gig) => {
  const songs = new Map(files.map((file) => [file.song.id, file]));
  const tonight = (file: SongFile) =>
    aReading(file, 25, 30, { lineUp: new Map([...asked(file, 25).lineUp, ...gig.lineUp]) });
  return gigOutlook({
    gig,
    songs,
    chairs: SEATED,
    people: CROWD,
    settings: DEFAULT_SETTINGS,
    reading: (song) => {
      const file = songs.get(song);
      return file === undefined ? null : tonight(file);
    },
  });
};

test("below the line stand the songs that are not ready, the worst first", () => {
  const outlook = outlookOf([renamed("a"), renamed("b", {}, []), renamed("c")], gigOf(["a", "b", "c"]));
  expect(belowTheLine(outlook.songs).map(({ song }) => song)).toEqual(["b"]);
  const [a, b] = outlook.songs;
  if (a === undefined || b === undefined) throw new Error("The gig has too few songs.");
  const low = { ...a, song: "low", ready: false, points: b.points - 1 };
  expect(belowTheLine([b, a, low]).map(({ song }) => song)).toEqual(["low", "b"]);
});

test("ready minutes count the ready songs and the gaps between them", () => {
  const files = [renamed("a"), renamed("b", { length: 200 }), renamed("c", {}, [])];
  const outlook = outlookOf(files, gigOf(["a", "b", "c"]));
  expect(outlook.songs.map(({ ready }) => ready)).toEqual([true, true, false]);
  expect(outlook.minutes.ready).toBeCloseTo((240 + 200 + 20) / 60, 10);
  expect(outlook.minutes.planned).toBeCloseTo((240 + 200 + 240 + 40) / 60, 10);
  expect(outlook.gaps).toBeCloseTo(40 / 60, 10);
  expect(outlook.readySongs).toBe(2);
  expect(outlook.songs[2]?.reason?.sentence).toMatch(/run/i);
});

test("a song that left the board is left out", () => {
  const outlook = outlookOf([renamed("a")], gigOf(["gone", "a"]));
  expect(outlook.songs.map(({ song }) => song)).toEqual(["a"]);
  expect(outlook.gaps).toBe(0);
});

test("who is away, who stands in, and which songs that leaves open", () => {
  const names = namesOf({ chairs: SEATED, people: CROWD });
  const lineUp = new Map([
    ["gt", null],
    ["bs", "dep-karim"],
  ]);
  const outlook = outlookOf([renamed("a"), renamed("b")], gigOf(["a", "b"], lineUp));
  expect(outlook.seats.map((seat) => seatSentence(seat, names))).toEqual([
    "Player tomasz is away: nobody on Chair gt, in 2 songs.",
    "Player dep-karim is on Chair bs for Player ifeoma.",
  ]);
  expect(outlookOf([renamed("a")], gigOf(["a"])).seats).toEqual([]);
});

test("a vacant chair and a hole in one song read as what they are", () => {
  const names = namesOf({ chairs: SEATED, people: CROWD });
  const [chair] = SEATED;
  if (chair === undefined) throw new Error("no chair");
  const seat = { chair, usual: null, tonight: null, uncovered: 1 };
  expect(seatSentence(seat, names)).toBe("Nobody on Chair gt, in 1 song.");
  const hole = { chair, usual: "tomasz", tonight: "tomasz", uncovered: 1 };
  expect(seatSentence(hole, names)).toBe("Chair gt has nobody in 1 song.");
});

test("an outlook is the same until something it says changes", () => {
  const files = [renamed("a"), renamed("b")];
  const before = outlookOf(files, gigOf(["a", "b"]));
  expect(sameOutlook(before, outlookOf(files, gigOf(["a", "b"])))).toBe(true);
  expect(sameOutlook(before, outlookOf(files, gigOf(["b", "a"])))).toBe(false);
  expect(sameOutlook(before, outlookOf([renamed("a"), renamed("b", {}, [])], gigOf(["a", "b"])))).toBe(false);
  expect(sameOutlook(before, outlookOf(files, gigOf(["a", "b"], new Map([["gt", "dep-karim"]]))))).toBe(
    false,
  );
});

test("days to go read as people say them", () => {
  expect([0, 1, 9, -1, -3].map(daysToGo)).toEqual([
    "today",
    "tomorrow",
    "in 9 days",
    "yesterday",
    "3 days ago",
  ]);
});
