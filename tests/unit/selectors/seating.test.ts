import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Chair } from "#shared/board/band.ts";
import type { Attendance } from "#shared/board/rehearsal.ts";
import type { Casting } from "#shared/board/song.ts";
import {
  attendanceWords,
  EVERYBODY,
  emptyChairs,
  expected,
  hereWords,
  presenceChange,
  presentAt,
  seatsFor,
  withPresence,
  withStandIn,
} from "#shared/selectors/seating.ts";
import { CHAIRS, MEMBERS, SONG } from "#tests/support/histories.ts";
import { aSong, holderOf } from "#tests/support/ready-song.ts";

const chairs = CHAIRS.map(
  (id): Chair => ({ id, name: id, short: id, instrument: "other", holder: holderOf(id), order: id }),
);
const people = new Map(
  MEMBERS.map((id) => [id, { id, name: id, dep: id.startsWith("dep"), voice: null, order: id }]),
);
const board = { chairs, people };
const names = { member: (id: string) => id, chair: (id: string) => id };
const cast = (chair: string, change: Partial<Casting>): Casting => ({
  song: SONG,
  chair,
  plays: true,
  needed: true,
  holder: null,
  share: 1,
  nothingSpecial: null,
  ...change,
});
const seats = (...args: Parameters<typeof seatsFor>) =>
  seatsFor(...args).map(({ chair, member }) => `${chair} ${member}`);

describe("the seats of a take", () => {
  test("are the usual line-up when everybody is here", () => {
    expect(seats(board, aSong(), EVERYBODY, null)).toEqual(CHAIRS.map((id) => `${id} ${holderOf(id)}`));
  });

  test("leave out who is away, and put a stand-in on the chair", () => {
    const away = withPresence(board, EVERYBODY, "ifeoma", false);
    expect(seats(board, aSong(), away, null)).toEqual(["gt tomasz", "dr minjae", "vx lucia"]);
    const depped = withStandIn(away, "bs", "dep-karim");
    expect(seats(board, aSong(), depped, null)).toContain("bs dep-karim");
  });

  test("follow the song's own cast, and leave out chairs with nothing to play", () => {
    const file = aSong({
      castings: new Map([
        ["gt", cast("gt", { holder: "lucia" })],
        ["dr", cast("dr", { plays: false })],
      ]),
    });
    expect(seats(board, file, EVERYBODY, null)).toEqual(["gt lucia", "bs ifeoma", "vx lucia"]);
    expect(seats(board, file, withPresence(board, EVERYBODY, "lucia", false), null)).toEqual(["bs ifeoma"]);
  });

  test("are the gig's own at a gig, whoever is in the room today", () => {
    const gig = { lineUp: new Map([["bs", "dep-karim"]]), away: [] };
    const away = withPresence(board, EVERYBODY, "tomasz", false);
    expect(seats(board, aSong(), away, gig)).toEqual(["gt tomasz", "bs dep-karim", "dr minjae", "vx lucia"]);
    // Who said that they cannot come that day sat nowhere, whoever had put them there.
    expect(seats(board, aSong(), EVERYBODY, { ...gig, away: ["dep-karim", "lucia"] })).toEqual([
      "gt tomasz",
      "dr minjae",
    ]);
  });
});

describe("who is here", () => {
  test("expects those who hold a chair, not the deps", () => {
    expect(expected(board)).toEqual(["tomasz", "ifeoma", "minjae", "lucia"]);
  });

  test("offers the chairs that would be empty, and gives a chair back to its player", () => {
    const away = withPresence(board, EVERYBODY, "ifeoma", false);
    expect(emptyChairs(board, away).map(({ id }) => id)).toEqual(["bs"]);
    const depped = withStandIn(away, "bs", "dep-karim");
    expect(withPresence(board, depped, "ifeoma", true)).toEqual(EVERYBODY);
  });

  test("takes somebody who leaves off the chair they sat in on", () => {
    const both = withPresence(board, withPresence(board, EVERYBODY, "ifeoma", false), "lucia", false);
    const helped = withStandIn(both, "bs", "minjae");
    expect(withPresence(board, helped, "minjae", false).standIns).toEqual({});
  });

  test("is said in words", () => {
    expect(hereWords(board, EVERYBODY, names)).toBe("everybody");
    const away = withPresence(board, EVERYBODY, "ifeoma", false);
    expect(hereWords(board, withStandIn(away, "bs", "dep-karim"), names)).toBe(
      "everybody but ifeoma, dep-karim on bs",
    );
  });
});

describe("an evening's record", () => {
  const evening = (attendance: ReadonlyMap<string, Attendance> = new Map()) => ({
    attendance,
    standIns: new Map([["bs", "dep-karim"]]),
  });
  const at = (clock: string) => Date.parse(`2026-03-05T${clock}:00Z`);
  /** The record after somebody says who is here. */
  const saying = (
    known: ReadonlyMap<string, Attendance>,
    now: number | null,
    person: string,
    here: boolean,
  ) => {
    const before = presentAt(evening(known), now);
    const change = presenceChange(before, withPresence(board, before, person, here), known, now);
    return new Map([...known, ...change.say.map(({ person: who, ...said }) => [who, said] as const)]);
  };

  test("tells who is here at a moment; nobody said anything = everybody, all evening", () => {
    expect(presentAt(undefined, at("20:00"))).toEqual(EVERYBODY);
    const late = new Map([["ifeoma", { here: true, from: at("20:30"), to: at("21:30") }]]);
    expect(presentAt(evening(late), at("20:00"))).toEqual({
      away: ["ifeoma"],
      standIns: { bs: "dep-karim" },
    });
    expect(presentAt(evening(late), at("20:30")).away).toEqual([]);
    expect(presentAt(evening(late), at("21:30")).away).toEqual(["ifeoma"]);
    expect(presentAt(evening(late), null).away).toEqual([]);
  });

  test("before the evening somebody is there or not; while it is played they come and go", () => {
    expect(saying(new Map(), null, "ifeoma", false)).toEqual(
      new Map([["ifeoma", { here: false, from: null, to: null }]]),
    );
    const left = saying(new Map(), at("21:00"), "ifeoma", false);
    expect(left.get("ifeoma")).toEqual({ here: true, from: null, to: at("21:00") });
    expect(saying(left, at("21:20"), "ifeoma", true).get("ifeoma")).toEqual({
      here: true,
      from: null,
      to: null,
    });
    const absent = new Map([["ifeoma", { here: false, from: null, to: null }]]);
    expect(saying(absent, at("20:15"), "ifeoma", true).get("ifeoma")).toEqual({
      here: true,
      from: at("20:15"),
      to: null,
    });
  });

  test("what is written tells what was meant, whatever stood there before", () => {
    const moment = fc.option(fc.integer({ min: 0, max: 50 }), { nil: null });
    fc.assert(
      fc.property(fc.boolean(), moment, moment, fc.integer({ min: 0, max: 50 }), fc.boolean(), (...drawn) => {
        const [here, from, to, now, wanted] = drawn;
        const known = new Map([["ifeoma", { here, from, to }]]);
        const next = saying(known, now, "ifeoma", wanted);
        expect(!presentAt(evening(next), now).away.includes("ifeoma")).toBe(wanted);
        const said = next.get("ifeoma");
        if (said?.from != null && said.to !== null && next !== known && (from ?? 0) <= (to ?? 50))
          expect(said.from).toBeLessThanOrEqual(said.to);
      }),
      { numRuns: 1000 },
    );
  });

  test("puts coming and going into words", () => {
    const words = (said: Attendance | undefined) => attendanceWords(said, at("21:00"), "UTC");
    expect(words(undefined)).toBe("");
    expect(words({ here: false, from: null, to: null })).toBe("not here");
    expect(words({ here: true, from: at("20:30"), to: at("20:50") })).toBe("from 20:30, left at 20:50");
    expect(words({ here: true, from: at("21:30"), to: null })).toBe("comes at 21:30");
    expect(words({ here: true, from: null, to: at("22:00") })).toBe("until 22:00");
  });
});
