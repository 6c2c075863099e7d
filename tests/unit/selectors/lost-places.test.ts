import { expect, test } from "vitest";
import { lostPlaces } from "#shared/selectors/lost-places.ts";
import { checkLength } from "#shared/selectors/song-entries.ts";
import { PLAIN_SECTION } from "#tests/support/plain-section.ts";
import { aCard, aSong } from "#tests/support/ready-song.ts";

const section = (id: string, bars: number, change: object = {}) => ({
  id,
  song: "md",
  name: id.toUpperCase(),
  bars,
  ...PLAIN_SECTION,
  order: id,
  since: 0,
  ...change,
});
const file = aSong({
  sections: [section("a", 8), section("b", 4, { repeats: 2 })],
  cards: [
    aCard("whole"),
    aCard("there", { where: { from: { section: "a", bar: 8 } } }),
    aCard("gone", { where: { from: { section: "z" } } }),
    aCard("beyond", { where: { from: { section: "a", bar: 9 } } }),
    aCard("end", { where: { from: { section: "a" }, to: { section: "b", bar: 5 } } }),
    aCard("lost", { where: { from: { section: "a" }, lost: true } }),
    aCard("third", { where: { from: { section: "b" }, pass: 3 } }),
    aCard("second", { where: { from: { section: "b" }, pass: 2 } }),
    // A section that is written once may come round elsewhere in the form.
    aCard("again", { where: { from: { section: "a" }, pass: 2 } }),
  ],
});

test("details whose section or bar is gone are named with what is wrong, and no other", () => {
  expect(lostPlaces(file).map(({ card, sentence }) => [card.id, sentence])).toEqual([
    ["gone", "Its section was taken out of the form."],
    ["beyond", "A has 8 bars only, and it stands at bar 9."],
    ["end", "B has 4 bars only, and it stands at bar 5."],
    ["lost", "Its bar was taken out of the form."],
    ["third", "B comes 2 times only."],
  ]);
});

// Plain arithmetic: 8 bars of 4/4 at 120 last 16 s; 4 bars of 3/4 twice at 60 last 24 s.
test("the length counts repeats and each section's own metre and tempo", () => {
  const song = { ...aSong().song, tempo: 120, metre: "4/4", length: null };
  const sections = [section("a", 8), section("b", 4, { repeats: 2, metre: "3/4", tempo: 60 })];
  expect(checkLength({ song, sections })).toMatchObject({
    bars: 16,
    seconds: 40,
    sentence: "16 bars make 0:40.",
  });
  expect(checkLength({ song: { ...song, length: 60 }, sections })?.sentence).toBe(
    "16 bars make 0:40; written is 1:00.",
  );
  expect(checkLength({ song: { ...song, tempo: null }, sections })).toBeNull();
});

test("a stretch whose end has come to lie before its start is named, and no other", () => {
  const stretch = (id: string, from: object, to: object) =>
    aCard(id, { where: { from: { section: "a", ...from }, to: { section: "a", ...to } } });
  const turned = {
    ...file,
    cards: [
      stretch("back", { bar: 5 }, { bar: 3 }),
      stretch("in the bar", { bar: 5, beat: 3 }, { bar: 5, beat: 2 }),
      stretch("sections", { section: "b", bar: 1 }, { bar: 8 }),
      stretch("there", { bar: 3 }, { bar: 5 }),
      stretch("one bar", { bar: 5, beat: 3 }, { bar: 5 }),
      stretch("one beat", { bar: 5, beat: 3 }, { bar: 5, beat: 3 }),
      stretch("to its end", { bar: 5 }, {}),
      stretch("from its start", {}, { bar: 1 }),
      stretch("joint", { bar: 8 }, { section: "b", bar: 1 }),
    ],
  };
  expect(lostPlaces(turned).map(({ card, sentence }) => [card.id, sentence])).toEqual([
    ["back", "It begins at bar 5 of A and ends at bar 3."],
    ["in the bar", "It ends before it begins, in bar 5 of A."],
    ["sections", "It begins in B and ends in A, which comes before."],
  ]);
});
