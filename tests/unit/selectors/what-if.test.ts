import { describe, expect, test } from "vitest";
import type { Chair, Gig, Person } from "#shared/board/band.ts";
import type { SongFile } from "#shared/board/board.ts";
import { lineUpFor } from "#shared/board/line-up.ts";
import {
  changedSongs,
  playersOf,
  type SongStand,
  suppose,
  supposedWords,
} from "#shared/selectors/what-if.ts";
import { NOTHING_AGREED } from "#tests/support/plain-gig.ts";
import { plainSong } from "#tests/support/plain-song.ts";
import { aSong } from "#tests/support/ready-song.ts";

const chair = (id: string, holder: string | null): Chair => ({
  id,
  name: id,
  short: id,
  instrument: "other",
  holder,
  order: id,
});
const CHAIRS = [chair("gt", "tomasz"), chair("vx", "priya"), chair("bv", "tomasz")];
const called = (song: string, order: string, block = 0) => ({
  song,
  order,
  key: null,
  tempo: null,
  tuning: null,
  block,
  pin: "" as const,
});
const gig: Gig = {
  id: "quay",
  name: "Quay",
  place: "",
  date: "2026-12-12",
  minutes: 45,
  ...NOTHING_AGREED,
  songs: [called("a", "a1"), called("b", "a2", 1)],
  lineUp: new Map([["vx", "karim"]]),
  waivers: [],
};
const person = (id: string): Person => ({ id, name: id, dep: false, voice: null, order: id });
const NAMES = { member: (id: string) => `M. ${id}`, chair: () => "Bass" };
const BOARD = {
  chairs: CHAIRS,
  people: new Map(["tomasz", "priya", "karim", "ifeoma"].map((id) => [id, person(id)])),
};
/** A song that names who plays one chair. */
const withHolder = (song: string, chair: string, holder: string | null): SongFile => ({
  ...aSong(),
  song: plainSong(song),
  castings: new Map([
    [chair, { song, chair, plays: true, needed: true, holder, share: 1, nothingSpecial: null }],
  ]),
});
const stand = (song: string, score: number, ready: boolean): SongStand => ({
  song,
  title: song.toUpperCase(),
  score,
  ready,
  reason: ready ? null : { sentence: "Nobody is on Bass.", names: { song } },
  seats: [],
});

describe("supposing", () => {
  test("without somebody empties every seat that falls to them, by the song or by the chair, and no other", () => {
    const without = suppose(gig, [{ of: "without", person: "tomasz" }]);
    expect(without).toEqual({ ...gig, away: ["tomasz"] });
    expect(suppose(without, [{ of: "without", person: "tomasz" }])).toBe(without);
    const priyaPlaysGuitar = withHolder("b", "gt", "priya");
    const tomaszSings = withHolder("c", "vx", "tomasz");
    expect([...lineUpFor(BOARD, priyaPlaysGuitar, without)]).toEqual([
      ["gt", "priya"],
      ["vx", "karim"],
      ["bv", null],
    ]);
    expect(lineUpFor(BOARD, tomaszSings, gig).get("vx")).toBe("tomasz");
    // Karim is seated there that night anyway; without him nobody is.
    expect(lineUpFor(BOARD, tomaszSings, without).get("vx")).toBe("karim");
    const alone = suppose(without, [{ of: "without", person: "karim" }]);
    expect(lineUpFor(BOARD, tomaszSings, alone).get("vx")).toBeNull();
  });

  test("one thing after another: somebody is missing, and somebody else sits in", () => {
    const both = suppose(gig, [
      { of: "without", person: "tomasz" },
      { of: "seat", chair: "gt", member: "ifeoma" },
    ]);
    const lineUp = lineUpFor(BOARD, withHolder("a", "gt", null), both);
    expect(lineUp.get("gt")).toBe("ifeoma");
    expect(lineUp.get("bv")).toBeNull();
  });

  test("who plays is everybody with a seat in a called song, whoever named them", () => {
    const songs = new Map([
      ["a", withHolder("a", "gt", "ifeoma")],
      ["z", withHolder("z", "gt", "priya")],
    ]);
    expect(playersOf({ ...BOARD, songs }, gig)).toEqual(["tomasz", "karim", "ifeoma"]);
    expect(playersOf({ ...BOARD, songs }, suppose(gig, [{ of: "without", person: "karim" }]))).toEqual([
      "tomasz",
      "ifeoma",
    ]);
  });

  test("a swap keeps the place and the block, and a song is never there twice", () => {
    const swapped = suppose(gig, [{ of: "swap", out: "b", in: "c" }]);
    expect(swapped.songs.map(({ song, block }) => [song, block])).toEqual([
      ["a", 0],
      ["c", 1],
    ]);
    expect(suppose(gig, [{ of: "swap", out: "b", in: "a" }])).toBe(gig);
  });

  test("the gig itself is never changed", () => {
    const before = JSON.stringify([gig.songs, [...gig.lineUp]]);
    suppose(gig, [
      { of: "key", song: "a", key: "Dm" },
      { of: "without", person: "karim" },
    ]);
    expect(JSON.stringify([gig.songs, [...gig.lineUp]])).toBe(before);
  });
});

describe("what would change", () => {
  test("names the songs that stand differently, worse ones first, each with its reason", () => {
    const before = [stand("a", 0.9, true), stand("b", 0.6, false), stand("c", 0.5, false)];
    const after = [
      stand("a", 0.7, false),
      stand("b", 0.6, false),
      stand("c", 0.55, false),
      stand("d", 0.8, true),
    ];
    expect(changedSongs(before, after, NAMES)).toEqual([
      { song: "a", title: "A", sentence: "90 to 70 %; not ready then: Nobody is on Bass.", worse: true },
      { song: "d", title: "D", sentence: "comes in, ready, at 80 %", worse: false },
      { song: "c", title: "C", sentence: "50 to 55 %", worse: false },
    ]);
  });

  test("says who makes a song stand higher, and only where somebody else plays", () => {
    const low = { ...stand("a", 0.5, false), seats: [{ chair: "bs", member: "minjae" }] };
    const high = { ...stand("a", 0.6, false), seats: [{ chair: "bs", member: "karim" }] };
    expect(changedSongs([low], [high], NAMES)[0]?.sentence).toBe(
      "50 to 60 %; M. karim on Bass has practised and shown more of it than who plays it usually",
    );
    expect(changedSongs([low], [{ ...high, seats: [] }], NAMES)[0]?.sentence).toBe(
      "50 to 60 %; what M. minjae had not practised or shown counts no more",
    );
    expect(changedSongs([low], [{ ...high, seats: low.seats }], NAMES)[0]?.sentence).toBe("50 to 60 %");
  });

  test("nothing that stays the same", () => {
    const same = [stand("a", 0.9, true)];
    expect(changedSongs(same, same, NAMES)).toEqual([]);
  });
});

test("what is supposed in words", () => {
  const title = (song: string): string => `‘${song}’`;
  expect(supposedWords({ of: "without", person: "tomasz" }, NAMES, title)).toBe("without M. tomasz");
  expect(supposedWords({ of: "seat", chair: "bs", member: "karim" }, NAMES, title)).toBe("Bass: M. karim");
  expect(supposedWords({ of: "key", song: "a", key: "Dm" }, NAMES, title)).toBe("‘a’ in Dm");
  expect(supposedWords({ of: "swap", out: "a", in: "b" }, NAMES, title)).toBe("‘b’ for ‘a’");
});
