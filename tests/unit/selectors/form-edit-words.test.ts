import { expect, test } from "vitest";
import { takenOutTold, touchedWords } from "#shared/selectors/form-edit-words.ts";
import { PLAIN_SECTION } from "#tests/support/plain-section.ts";
import { aCard, aSong } from "#tests/support/ready-song.ts";

const section = (id: string, change: object = {}) => ({
  id,
  song: "md",
  name: id.toUpperCase(),
  bars: 8,
  ...PLAIN_SECTION,
  order: id,
  since: 0,
  ...change,
});
const at = (id: string, place: string, bar: number) =>
  aCard(id, { where: { from: { section: place, bar } } });
const file = aSong({
  sections: [section("a"), section("b", { key: "E" }), section("c"), section("d", { key: "F" })],
  cards: [
    aCard("whole"),
    at("a3", "a", 3),
    at("a6", "a", 6),
    at("a7", "a", 7),
    aCard("over", { where: { from: { section: "a", bar: 8 }, to: { section: "b", bar: 2 } } }),
    aCard("all of b", { where: { from: { section: "b" } } }),
  ],
});

test.each([
  [{ of: "insert", section: "a", at: 7, count: 2 }, "2 details move along."],
  [{ of: "insert", section: "a", at: 9, count: 2 }, "No detail moves."],
  [
    { of: "remove", section: "a", at: 6, count: 1 },
    "2 details move along, 1 detail loses its bar and is marked.",
  ],
  [{ of: "remove", section: "a", at: 6, count: 3 }, "3 details lose their bars and are marked."],
  [{ of: "split", section: "a", at: 8, into: "" }, "1 detail moves along."],
  [{ of: "split", section: "a", at: 5, into: "" }, "3 details move along."],
  [{ of: "join", section: "a", bars: 8, next: "b" }, "2 details move along."],
  [{ of: "out", section: "b" }, "2 details lose their section and are marked."],
  [{ of: "out", section: "d" }, "No detail moves."],
] as const)("%j: %s", (edit, words) => {
  expect(touchedWords(file, edit)).toBe(words);
});

test("before a section goes, what hangs on it is told, and nothing where nothing does", () => {
  expect(takenOutTold(file, "a")).toEqual(["4 details lose their section and are marked."]);
  expect(takenOutTold(file, "b")).toEqual([
    "2 details lose their section and are marked.",
    "Its change of key goes with it, also for C.",
  ]);
  expect(takenOutTold(file, "c")).toEqual([]);
  // It is the last: nothing follows that could stand in its key.
  expect(takenOutTold(file, "d")).toEqual([]);
  expect(takenOutTold(file, "z")).toEqual([]);
});
