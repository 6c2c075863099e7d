import { describe, expect, test } from "vitest";
import type { Chair, Gig } from "#shared/board/band.ts";
import { changedSongs, type SongStand, suppose, supposedWords } from "#shared/selectors/what-if.ts";
import { NOTHING_AGREED } from "#tests/support/plain-gig.ts";

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
const stand = (song: string, score: number, ready: boolean): SongStand => ({
  song,
  title: song.toUpperCase(),
  score,
  ready,
  reason: ready ? null : { sentence: "Nobody is on Bass.", names: { song } },
});

describe("supposing", () => {
  test("without somebody empties every chair they would sit on, and no other", () => {
    const without = suppose(gig, [{ of: "without", person: "tomasz" }], CHAIRS);
    expect([...without.lineUp]).toEqual([
      ["vx", "karim"],
      ["gt", null],
      ["bv", null],
    ]);
    // Priya does not sit there that night.
    expect(suppose(gig, [{ of: "without", person: "priya" }], CHAIRS).lineUp).toEqual(gig.lineUp);
  });

  test("one thing after another: somebody is missing, and somebody else sits in", () => {
    const both = suppose(
      gig,
      [
        { of: "without", person: "tomasz" },
        { of: "seat", chair: "gt", member: "ifeoma" },
      ],
      CHAIRS,
    );
    expect(both.lineUp.get("gt")).toBe("ifeoma");
    expect(both.lineUp.get("bv")).toBeNull();
  });

  test("a swap keeps the place and the block, and a song is never there twice", () => {
    const swapped = suppose(gig, [{ of: "swap", out: "b", in: "c" }], CHAIRS);
    expect(swapped.songs.map(({ song, block }) => [song, block])).toEqual([
      ["a", 0],
      ["c", 1],
    ]);
    expect(suppose(gig, [{ of: "swap", out: "b", in: "a" }], CHAIRS)).toBe(gig);
  });

  test("the gig itself is never changed", () => {
    const before = JSON.stringify([gig.songs, [...gig.lineUp]]);
    suppose(
      gig,
      [
        { of: "key", song: "a", key: "Dm" },
        { of: "without", person: "karim" },
      ],
      CHAIRS,
    );
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
    expect(changedSongs(before, after, true)).toEqual([
      { song: "a", title: "A", sentence: "90 to 70 %; not ready then: Nobody is on Bass.", worse: true },
      { song: "d", title: "D", sentence: "comes in, ready, at 80 %", worse: false },
      {
        song: "c",
        title: "C",
        sentence: "50 to 55 %; whoever sits there instead has more practised and shown than the usual player",
        worse: false,
      },
    ]);
  });

  test("nothing that stays the same", () => {
    const same = [stand("a", 0.9, true)];
    expect(changedSongs(same, same, false)).toEqual([]);
  });
});

test("what is supposed in words", () => {
  const names = { member: (id: string) => `M. ${id}`, chair: () => "Bass" };
  const title = (song: string): string => `‘${song}’`;
  expect(supposedWords({ of: "without", person: "tomasz" }, names, title)).toBe("without M. tomasz");
  expect(supposedWords({ of: "seat", chair: "bs", member: "karim" }, names, title)).toBe("Bass: M. karim");
  expect(supposedWords({ of: "key", song: "a", key: "Dm" }, names, title)).toBe("‘a’ in Dm");
  expect(supposedWords({ of: "swap", out: "a", in: "b" }, names, title)).toBe("‘b’ for ‘a’");
});
