import fc from "fast-check";
import { expect, test } from "vitest";
import { type BoardChoices, DEFAULT_CHOICES } from "#shared/selectors/board-choices.ts";
import { arrangeRows, isStale, orderNews, STALE_DAYS, worstFirst } from "#shared/selectors/board-order.ts";
import type { BoardRow } from "#shared/selectors/board-row.ts";
import { aRow } from "#tests/support/a-row.ts";
import { laws } from "#tests/support/fuzz.ts";
import { DAY_MS, START } from "#tests/support/histories.ts";

const NOW = START + 120 * DAY_MS;

const shown = (rows: readonly BoardRow[], change: Partial<BoardChoices> = {}): readonly string[] =>
  arrangeRows(rows, { ...DEFAULT_CHOICES, ...change }, NOW).map(({ song }) => song);

test("worst first: not ready before ready, the gig's songs before others, then the lower night", () => {
  const rows = [
    aRow("ready, called", { ready: true, place: 0, night: 0.2 }),
    aRow("ready, not called", { ready: true, night: 0.1 }),
    aRow("not called, low", { night: 0.1 }),
    aRow("called, high", { place: 1, night: 0.9 }),
    aRow("called, low", { place: 2, night: 0.3 }),
  ];
  expect(shown(rows)).toEqual([
    "called, low",
    "called, high",
    "not called, low",
    "ready, called",
    "ready, not called",
  ]);
});

test("rows that show the same points go by trouble, then by title", () => {
  const rows = [
    aRow("b", { night: 0.504, trouble: 1 }),
    aRow("a", { night: 0.496, trouble: 1 }),
    aRow("c", { night: 0.5, trouble: 2 }),
  ];
  expect(shown(rows)).toEqual(["c", "a", "b"]);
});

test("worst first is a total order whatever the rows", () => {
  const row = fc
    .record({
      song: fc.constantFrom("a", "b", "c", "d"),
      ready: fc.boolean(),
      place: fc.constantFrom(null, 0, 1),
      night: fc.double({ min: 0, max: 1, noNaN: true }),
      trouble: fc.constantFrom(0, 1, 2.5),
      title: fc.constantFrom("X", "x", "Ý"),
    })
    .map(({ song, ...change }) => aRow(song, change));
  fc.assert(
    fc.property(row, row, row, (a, b, c) => {
      expect(Math.sign(worstFirst(a, b)) + Math.sign(worstFirst(b, a))).toBe(0);
      if (worstFirst(a, b) <= 0 && worstFirst(b, c) <= 0) expect(worstFirst(a, c)).toBeLessThanOrEqual(0);
    }),
    laws(),
  );
});

test("titles sort as people read them", () => {
  const rows = ["zebra", "Ångström", "apple", "Äpfel"].map((title) => aRow(title, { title }));
  expect(shown(rows, { sort: "title" })).toEqual(["Ångström", "Äpfel", "apple", "zebra"]);
});

test("other orders: repertoire, running order with uncalled songs last, stale longest", () => {
  const rows = [
    aRow("a", { order: "2", place: 1, touched: NOW - 3 * DAY_MS }),
    aRow("b", { order: "1", place: null, touched: NOW - 9 * DAY_MS }),
    aRow("c", { order: "3", place: 0, touched: NOW - 6 * DAY_MS }),
  ];
  expect(shown(rows, { sort: "repertoire" })).toEqual(["b", "a", "c"]);
  expect(shown(rows, { sort: "running" })).toEqual(["c", "a", "b"]);
  expect(shown(rows, { sort: "stale" })).toEqual(["b", "c", "a"]);
});

test("resting songs hide until they are asked for or called for the gig", () => {
  const rows = [
    aRow("rests", { stage: "resting" }),
    aRow("rests, called", { stage: "resting", place: 0 }),
    aRow("learnt", { stage: "learning" }),
  ];
  expect(shown(rows)).toEqual(["rests, called", "learnt"]);
  expect(shown(rows, { stage: "all" })).toHaveLength(3);
  expect([...shown(rows, { stage: "resting" })].sort()).toEqual(["rests", "rests, called"]);
  expect(shown(rows, { stage: "learning" })).toEqual(["learnt"]);
});

test("filters must all pass", () => {
  const rows = [
    aRow("1", { place: 0, mine: false }),
    aRow("2", { place: 0, ready: true }),
    aRow("3", { noEnding: true, touched: NOW - 50 * DAY_MS }),
  ];
  expect(shown(rows, { filters: new Set(["gig"]) })).toEqual(["1", "2"]);
  expect(shown(rows, { filters: new Set(["gig", "mine"]) })).toEqual(["2"]);
  expect(shown(rows, { filters: new Set(["not-ready"]) })).toEqual(["1", "3"]);
  expect(shown(rows, { filters: new Set(["stale", "no-ending"]) })).toEqual(["3"]);
});

// Six weeks: common practice, no published source.
test("a song is stale after six weeks, not on their last day", () => {
  expect(isStale({ touched: NOW - STALE_DAYS * DAY_MS }, NOW)).toBe(false);
  expect(isStale({ touched: NOW - STALE_DAYS * DAY_MS - 1 }, NOW)).toBe(true);
});

test("a search finds every word in title or style, whatever the case and accents", () => {
  const rows = [
    aRow("1", { title: "Márzipan Diesel", style: "riff rock" }),
    aRow("2", { title: "Diesel Tide", style: "ballad" }),
  ];
  expect(shown(rows, { search: "diesel" })).toEqual(["2", "1"]);
  expect(shown(rows, { search: " DIESEL  marz" })).toEqual(["1"]);
  expect(shown(rows, { search: "rock tide" })).toEqual([]);
});

test("news: nothing while the order stands, a move, a song that would go, songs that would come", () => {
  expect(orderNews(["a", "b"], ["a", "b"])).toEqual({ moved: false, fresh: 0 });
  expect(orderNews(["a", "b"], ["b", "a"])).toEqual({ moved: true, fresh: 0 });
  expect(orderNews(["a", "b"], ["a"])).toEqual({ moved: true, fresh: 0 });
  expect(orderNews(["a", "b"], ["c", "a", "b", "d"])).toEqual({ moved: false, fresh: 2 });
});
