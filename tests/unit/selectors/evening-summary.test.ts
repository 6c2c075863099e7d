import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Board } from "#shared/board/board.ts";
import { DEFAULT_SETTINGS } from "#shared/board/settings.ts";
import { eveningSummary, gigEffect, songEffects } from "#shared/selectors/evening-summary.ts";
import { eveningTime, pauseSentence, playedWords } from "#shared/selectors/evening-time.ts";
import { roomPlace } from "#shared/selectors/room-order.ts";
import { songThen } from "#shared/selectors/song-then.ts";
import { CHAIRS, MEMBERS, SONG } from "#tests/support/histories.ts";
import { NOTHING_AGREED } from "#tests/support/plain-gig.ts";
import { aCard, aMark, aRun, aSong, holderOf } from "#tests/support/ready-song.ts";

const MINUTE = 60_000;
const played = (minute: number, song = "a") => ({ id: `${song}${minute}`, song, at: minute * MINUTE });

describe("the minutes of an evening", () => {
  test("are those up to each take, and a long silence was a pause", () => {
    const time = eveningTime([played(30, "b"), played(5), played(10)], { from: 0, to: 31 * MINUTE });
    expect([...time.bySong]).toEqual([
      ["a", 10],
      ["b", 15],
    ]);
    expect(time.played).toBe(25);
    expect(time.sincePause).toBe(16);
    expect(playedWords(time, 85)).toBe("25 of 85 minutes played");
  });

  test("a pause is suggested after long playing, and not while one lasts", () => {
    const takes = Array.from({ length: 10 }, (_, i) => played(5 * (i + 1)));
    expect(pauseSentence(eveningTime(takes, { from: 0, to: 51 * MINUTE }))).toMatch(/^51 minutes since/);
    expect(pauseSentence(eveningTime(takes, { from: 0, to: 61 * MINUTE }))).toBe("");
  });

  test("never exceed the evening, sum to the songs', and do not depend on the order of arrival", () => {
    const minutes = fc.array(fc.tuple(fc.integer({ min: 0, max: 180 }), fc.constantFrom("a", "b", "c")));
    fc.assert(
      fc.property(minutes, (drawn) => {
        const takes = drawn.map(([minute, song]) => played(minute, song));
        const span = { from: 0, to: 180 * MINUTE };
        const time = eveningTime(takes, span);
        expect(time.played).toBeLessThanOrEqual(180 + 1e-9);
        expect(eveningTime(takes.toReversed(), span)).toEqual(time);
      }),
      { numRuns: 1000 },
    );
  });
});

describe("a song as it stood", () => {
  test("has the takes, slips, details and marks from before, and nothing of what came after", () => {
    const [before, after] = [aRun(1), aRun(3)];
    const slip = { chair: "gt", card: "one", severity: 1, writer: "phone", at: after.at } as const;
    const file = aSong({
      takes: [{ ...before, slips: [slip] }, after],
      cards: [aCard("one"), aCard("two", { createdAt: after.at })],
      statuses: new Map([["one", new Map([["tomasz", { ...aMark(3, 3), from: 2, fromAnchor: 7 }]])]]),
    });
    const then = songThen(file, aMark(3, 3).at);
    expect(then.takes).toEqual([before]);
    expect(then.cards.map(({ id }) => id)).toEqual(["one"]);
    expect(then.statuses.get("one")?.get("tomasz")).toMatchObject({ level: 2, anchor: 7 });
  });

  test("has a mark that was raised since and put back by an undo as it stood", () => {
    const claimed = { ...aMark(3, 1), from: 2 } as const;
    const tonight = aMark(3, 3).at;
    const putBack = { ...claimed, level: 3, from: 3, fromAnchor: tonight, at: tonight + 1 } as const;
    const file = aSong({
      cards: [aCard("one")],
      statuses: new Map([["one", new Map([["tomasz", putBack]])]]),
    });
    expect(songThen(file, tonight).statuses.get("one")?.get("tomasz")).toMatchObject({
      level: 3,
      anchor: claimed.anchor,
    });
  });

  test("is itself after everything", () => {
    const file = aSong({ takes: [aRun(1), aRun(3)], cards: [aCard("one")] });
    expect(songThen(file, Number.POSITIVE_INFINITY)).toEqual(file);
  });
});

test("the next song is the plan's, else the gig's, else the list's", () => {
  const file = (id: string, title: string) => {
    const song = aSong();
    return [id, { ...song, song: { ...song.song, id, title } }] as const;
  };
  const songs = new Map([file("a", "Anvil"), file("b", "Barn"), file("c", "Clay"), file("d", "Dust")]);
  const called = (id: string) => ({
    song: id,
    order: id,
    key: null,
    tempo: null,
    tuning: null,
    block: 0,
    pin: "" as const,
  });
  const gig = { songs: [called("d"), called("a"), called("gone"), called("b")] };
  expect(roomPlace(songs, [{ song: "b" }, { song: "a" }], gig, "b")).toEqual({
    from: "plan",
    previous: null,
    next: "a",
  });
  expect(roomPlace(songs, [{ song: "b" }], gig, "a")).toEqual({ from: "gig", previous: "d", next: "b" });
  expect(roomPlace(songs, [], gig, "c")).toEqual({ from: "songs", previous: "b", next: null });
});

describe("what an evening changed", () => {
  const run = aRun(3);
  const slip = { chair: "bs", card: "one", severity: 1, writer: "phone", at: run.at } as const;
  const mark = { ...aMark(3, 3), at: run.at + 1, anchor: run.at + 1 };
  const file = aSong({
    takes: [aRun(1), { ...run, slips: [slip] }],
    cards: [aCard("one", { chairs: ["gt", "bs"] })],
    statuses: new Map([["one", new Map([["tomasz", mark]])]]),
  });
  const chairs = CHAIRS.map((id) => ({
    id,
    name: id,
    short: id,
    instrument: "other" as const,
    holder: holderOf(id),
    order: id,
  }));
  const gig = {
    id: "gig",
    name: "Barn",
    place: "",
    date: "2026-12-01",
    minutes: 45,
    ...NOTHING_AGREED,
    songs: [{ song: SONG, order: "a", key: null, tempo: null, tuning: null, block: 0, pin: "" as const }],
    lineUp: new Map(),
    waivers: [],
  };
  const board: Board = {
    band: { name: "", timeZone: "UTC", demo: false, tuning: "", settings: DEFAULT_SETTINGS },
    chairs,
    people: new Map(MEMBERS.map((id) => [id, { id, name: id, dep: false, voice: null, order: id }])),
    gigs: [gig],
    rehearsals: [],
    aways: [],
    songs: new Map([[SONG, file]]),
    removed: new Set(),
    issues: [],
    migrations: new Set(),
  };
  const source = { board, day: run.occasion.slice(2), gig, now: run.at + 60_000 };

  test("is told to each player about themselves, and to the leader about all, in the band's order", () => {
    const all = eveningSummary(source, null);
    expect(all.songs).toMatchObject([{ song: SONG, takes: { clean: 1, wobble: 0, stopped: 0 } }]);
    expect(all.players.map(({ member }) => member)).toEqual(
      MEMBERS.filter((id) => ["tomasz", holderOf("bs")].includes(id)),
    );
    const own = eveningSummary(source, "tomasz").players;
    expect(own.map(({ member }) => member)).toEqual(["tomasz"]);
    expect(own[0]?.lockedIn.map(({ card }) => card)).toEqual(["one"]);
    expect(own[0]?.slipped).toEqual([]);
  });

  test("does not count as locked in tonight what was raised and put back by an undo", () => {
    const old = aMark(3, 1).anchor;
    const putBack = { ...mark, from: 3, anchor: old, fromAnchor: mark.anchor } as const;
    const undone = { ...file, statuses: new Map([["one", new Map([["tomasz", putBack]])]]) };
    const songs = new Map([[SONG, undone]]);
    expect(eveningSummary({ ...source, board: { ...board, songs } }, "tomasz").players).toEqual([]);
  });

  test("gives as before the score that the board really had", () => {
    const then = aSong({ takes: [aRun(1)], cards: file.cards });
    const [effect] = [...songEffects(source)];
    const real = [...songEffects({ ...source, board: { ...board, songs: new Map([[SONG, then]]) } })];
    expect(effect?.before).toBe(real[0]?.before);
    expect(effect?.after).not.toBe(effect?.before);
    expect(gigEffect(source, gig, effect === undefined ? [] : [effect]).contracted).toBe(45);
  });
});
