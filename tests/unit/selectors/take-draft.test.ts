import { describe, expect, test } from "vitest";
import type { Chair, Gig } from "#shared/board/band.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import { EVERYBODY, withPresence } from "#shared/selectors/seating.ts";
import {
  EMPTY_TAKE,
  keepTakeDraft,
  keptTakeDraft,
  nextTake,
  playedGigs,
  type TakeDraft,
  type TakeScene,
  takeArgs,
  takeWords,
} from "#shared/selectors/take-draft.ts";
import { CHAIRS, MEMBERS, SONG } from "#tests/support/histories.ts";
import { NOTHING_AGREED } from "#tests/support/plain-gig.ts";
import { PLAIN_SECTION } from "#tests/support/plain-section.ts";
import { aCard, aSong, holderOf } from "#tests/support/ready-song.ts";

const chairs = CHAIRS.map(
  (id): Chair => ({ id, name: id, short: id, instrument: "other", holder: holderOf(id), order: id }),
);
const people = new Map(
  MEMBERS.map((id) => [id, { id, name: id, dep: id.startsWith("dep"), voice: null, order: id }]),
);
const names = { member: (id: string) => id, chair: (id: string) => id };

const gig = (id: string, date: string): Gig => ({
  id,
  name: id,
  place: "",
  date,
  minutes: 25,
  ...NOTHING_AGREED,
  songs: [{ song: SONG, order: "a", key: "Em", tempo: null, tuning: null, block: 0, pin: "" as const }],
  lineUp: new Map([["bs", "dep-karim"]]),
  waivers: [],
});

const section = (id: string) => ({
  id,
  song: SONG,
  name: id,
  bars: 8,
  ...PLAIN_SECTION,
  order: id,
  since: 0,
});
const scene: TakeScene = {
  board: {
    chairs,
    people,
    gigs: [gig("old", "2026-02-14"), gig("last", "2026-03-01"), gig("next", "2026-03-14")],
  },
  file: aSong({ sections: [section("v1"), section("ch1")], cards: [aCard("must"), aCard("lift")] }),
  timeZone: "Europe/Lisbon",
  today: "2026-03-05",
  now: Date.UTC(2026, 2, 5, 20),
  member: "tomasz",
  here: EVERYBODY,
};
const draft = (change: Partial<TakeDraft>): TakeDraft => ({ ...EMPTY_TAKE, ...change });
const args = (change: Partial<TakeDraft>, more: Partial<TakeScene> = {}) =>
  takeArgs(draft(change), "clean", { ...scene, ...more });

test("an untouched draft is a whole run by everybody, today, now", () => {
  expect(args({})).toEqual({
    ok: true,
    value: {
      song: SONG,
      occasion: "r:2026-03-05",
      kind: "run",
      at: scene.now,
      seats: CHAIRS.map((chair) => ({ chair, member: holderOf(chair) })),
      scope: { of: "whole" },
      feel: "clean",
      tempoStart: null,
      tempoEnd: null,
      key: null,
      slips: [],
    },
  });
  expect(takeWords(EMPTY_TAKE, scene, names)).toBe("Run, whole song, everybody, today");
});

describe("the day", () => {
  test("may be an earlier one, and then the take lies in that evening", () => {
    const result = args({ day: "2026-03-03" });
    expect(result).toMatchObject({ ok: true, value: { occasion: "r:2026-03-03" } });
    if (result.ok) expect(dayOf(result.value.at, scene.timeZone)).toBe("2026-03-03");
  });

  test.each(["2026-03-06", "2027-01-01"])("may not lie ahead: %s", (day) => {
    expect(args({ day })).toMatchObject({ ok: false, error: { field: "day" } });
  });

  test.each(["2026-02-30", "yesterday"])("must be one of the calendar: %s", (day) => {
    expect(args({ day })).toMatchObject({ ok: false, error: { field: "day" } });
  });
});

describe("a gig", () => {
  test("is the latest that has been played, with its own line-up on its own day", () => {
    const result = args({ kind: "gig" });
    expect(result).toMatchObject({ ok: true, value: { occasion: "g:last" } });
    if (!result.ok) return;
    expect(dayOf(result.value.at, scene.timeZone)).toBe("2026-03-01");
    expect(result.value.seats).toContainEqual({ chair: "bs", member: "dep-karim" });
  });

  test("may be an earlier one, never one ahead", () => {
    expect(args({ kind: "gig", gig: "old" })).toMatchObject({ value: { occasion: "g:old" } });
    expect(args({ kind: "gig", gig: "next" })).toMatchObject({ value: { occasion: "g:last" } });
    expect(playedGigs(scene.board.gigs, scene.today).map(({ id }) => id)).toEqual(["last", "old"]);
  });

  test("cannot be logged before there was one", () => {
    const board = { ...scene.board, gigs: [gig("next", "2026-03-14")] };
    expect(args({ kind: "gig" }, { board })).toMatchObject({ ok: false, error: { field: "gig" } });
  });
});

describe("work alone", () => {
  test("belongs to the member and their day, and seats them alone", () => {
    expect(args({ kind: "solo" })).toMatchObject({
      value: { occasion: "s:tomasz:2026-03-05", seats: [{ chair: "gt", member: "tomasz" }] },
    });
  });

  test("does not ask who was in the room", () => {
    const here = withPresence(scene.board, EVERYBODY, "tomasz", false);
    expect(args({ kind: "solo" }, { here })).toMatchObject({ ok: true });
  });

  test("needs a name, and a part to play", () => {
    expect(args({ kind: "solo" }, { member: null })).toMatchObject({ error: { field: "who" } });
    expect(args({ kind: "solo" }, { member: "dep-karim" })).toMatchObject({ error: { field: "who" } });
  });
});

describe("what it covered", () => {
  test("is the whole song in a run, whatever was tapped before", () => {
    expect(args({ scope: "details", details: ["must"] })).toMatchObject({
      value: { scope: { of: "whole" } },
    });
  });

  test("is sections or details in a drill, in playing order, those that are gone left out", () => {
    expect(args({ kind: "drill", scope: "sections", sections: ["ch1", "v1", "gone"] })).toMatchObject({
      value: { scope: { of: "sections", sections: ["v1", "ch1"] } },
    });
    expect(args({ kind: "drill", scope: "details", details: ["lift", "must"] })).toMatchObject({
      value: { scope: { of: "cards", cards: ["must", "lift"] } },
    });
  });

  test.each(["sections", "details"] as const)("cannot be none of its %s", (scope) => {
    expect(args({ kind: "drill", scope })).toMatchObject({ ok: false, error: { field: "scope" } });
  });
});

describe("the key", () => {
  test.each([
    ["", null],
    ["d", null],
    ["Em", "Em"],
    ["bb", "Bb"],
  ])("typed as %j is logged as %j where we play it in D", (key, logged) => {
    expect(args({ key })).toMatchObject({ value: { key: logged } });
  });

  test("is compared with the gig's own", () => {
    expect(args({ kind: "gig", key: "Em" })).toMatchObject({ value: { key: null } });
    expect(args({ kind: "gig", key: "D" })).toMatchObject({ value: { key: "D" } });
  });

  test("that is none is refused", () => {
    expect(args({ key: "H7" })).toMatchObject({ ok: false, error: { field: "key" } });
  });
});

test("nobody in the room who plays it is refused", () => {
  const here = { away: [...MEMBERS], standIns: {} };
  expect(args({}, { here })).toMatchObject({ ok: false, error: { field: "here" } });
});

test("slips on details that are gone are left out", () => {
  const slip = (card: string | null) => ({ chair: null, card, severity: 1 as const });
  expect(args({ slips: [slip("gone"), slip("must"), slip(null)] })).toMatchObject({
    value: { slips: [slip("must"), slip(null)] },
  });
});

describe("a kept draft", () => {
  const touched = draft({ kind: "drill", scope: "details", details: ["must"], tempoStart: 112 });

  test("comes back whole for the same song on the same day", () => {
    expect(keptTakeDraft(keepTakeDraft(scene.today, SONG, touched), scene.today, SONG)).toEqual(touched);
  });

  test("is forgotten the next day, and when it cannot be read", () => {
    expect(keptTakeDraft(keepTakeDraft("2026-03-04", SONG, touched), scene.today, SONG)).toEqual(EMPTY_TAKE);
    for (const text of ["", "{", "null", '{"today":"2026-03-05","song":"song","draft":{"kind":"jam"}}'])
      expect(keptTakeDraft(text, scene.today, SONG)).toEqual(EMPTY_TAKE);
  });

  test("leaves the gig and the day to the next song, and nothing about the last one", () => {
    const gigNight = draft({
      kind: "gig",
      gig: "old",
      slips: [{ chair: null, card: null, severity: 2 }],
      key: "C",
    });
    const text = keepTakeDraft(scene.today, "another", gigNight);
    expect(keptTakeDraft(text, scene.today, SONG)).toEqual(draft({ kind: "gig", gig: "old" }));
    expect(nextTake(touched)).toEqual(EMPTY_TAKE);
  });
});

test("the words of a draft say what it will log", () => {
  const here = withPresence(scene.board, EVERYBODY, "ifeoma", false);
  const slips = [{ chair: "gt", card: "must", severity: 1 as const }];
  expect(
    takeWords(
      draft({ kind: "drill", scope: "sections", sections: ["v1"], day: "2026-03-03", slips }),
      { ...scene, here },
      names,
    ),
  ).toBe("Drill, v1, everybody but ifeoma, Tue 3 March, 1 slip");
  expect(takeWords(draft({ kind: "gig" }), scene, names)).toBe("Gig, last, whole song, Sun 1 March");
});
