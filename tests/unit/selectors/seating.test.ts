import { describe, expect, test } from "vitest";
import type { Chair } from "#shared/board/band.ts";
import type { Casting } from "#shared/board/song.ts";
import {
  EVERYBODY,
  emptyChairs,
  expected,
  hereWords,
  keepHere,
  keptHere,
  seatsFor,
  withPresence,
  withStandIn,
} from "#shared/selectors/seating.ts";
import { CHAIRS, MEMBERS, SONG } from "#tests/support/histories.ts";
import { aSong, holderOf } from "#tests/support/ready-song.ts";

const chairs = CHAIRS.map(
  (id): Chair => ({ id, name: id, short: id, instrument: "other", holder: holderOf(id), order: id }),
);
const people = new Map(MEMBERS.map((id) => [id, { id, name: id, dep: id.startsWith("dep"), order: id }]));
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
    const gig = { lineUp: new Map([["bs", "dep-karim"]]) };
    const away = withPresence(board, EVERYBODY, "tomasz", false);
    expect(seats(board, aSong(), away, gig)).toEqual(["gt tomasz", "bs dep-karim", "dr minjae", "vx lucia"]);
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

  test("is kept day by day for the last few evenings, and nonsense counts as nothing", () => {
    const away = withPresence(board, EVERYBODY, "ifeoma", false);
    const days = Array.from({ length: 9 }, (_, i) => [`2026-03-0${i + 1}`, away] as const);
    const kept = keptHere(keepHere(new Map(days)));
    expect([...kept.keys()]).toEqual(["2026-03-05", "2026-03-06", "2026-03-07", "2026-03-08", "2026-03-09"]);
    expect(kept.get("2026-03-09")).toEqual(away);
    for (const text of ["", "{", "[1]", '{"2026-03-04":{"away":"x"}}']) expect(keptHere(text).size).toBe(0);
  });
});
