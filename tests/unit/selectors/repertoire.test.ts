import { expect, test } from "vitest";
import type { Song, Stage } from "#shared/board/song.ts";
import { repertoire, stageCounts } from "#shared/selectors/repertoire.ts";
import { songFacts } from "#shared/selectors/song-facts.ts";
import { plainSong } from "#tests/support/plain-song.ts";

const song = (
  id: string,
  title: string,
  stage: Stage,
  more: Partial<Song> = {},
): { readonly song: Song } => ({
  song: { ...plainSong(id, title), stage, ...more },
});

const SONGS = [
  song("a", "Umbrella for the Tram Inspector", "learning", { style: "ska" }),
  song("b", "Éclair at Noon", "learning"),
  song("c", "Marzipan Diesel", "in the book", { key: "D" }),
  song("d", "Paper Lighthouse", "candidate"),
  song("e", "Wrong Side of the Aquarium", "resting"),
];

const titles = (...args: Parameters<typeof repertoire>) =>
  repertoire(...args).map(({ stage, songs }) => [stage, songs.map((s) => s.title)]);

test("resting songs stay out until they are asked for", () => {
  expect(titles(SONGS, { search: "", stage: "current" }).map(([stage]) => stage)).toEqual([
    "learning",
    "in the book",
    "candidate",
  ]);
  expect(titles(SONGS, { search: "", stage: "resting" })).toEqual([
    ["resting", ["Wrong Side of the Aquarium"]],
  ]);
});

test("titles are sorted as people read them: accents and case make no difference", () => {
  expect(titles(SONGS, { search: "", stage: "learning" })).toEqual([
    ["learning", ["Éclair at Noon", "Umbrella for the Tram Inspector"]],
  ]);
});

test("every word of the search must appear in title, style, version or key", () => {
  expect(titles(SONGS, { search: "SKA tram", stage: "all" })).toEqual([
    ["learning", ["Umbrella for the Tram Inspector"]],
  ]);
  expect(titles(SONGS, { search: "eclair", stage: "all" })).toEqual([["learning", ["Éclair at Noon"]]]);
  expect(titles(SONGS, { search: "ska diesel", stage: "all" })).toEqual([]);
});

test("a song that was placed stays in its group while its stage changes", () => {
  const placed = new Map<string, Stage>([["c", "learning"]]);
  expect(titles(SONGS, { search: "marzipan", stage: "all" }, placed)).toEqual([
    ["learning", ["Marzipan Diesel"]],
  ]);
});

test("counts name every stage, also an empty one", () => {
  expect([...stageCounts(SONGS.slice(0, 3))]).toEqual([
    ["candidate", 0],
    ["learning", 2],
    ["in the book", 1],
    ["resting", 0],
  ]);
});

test("what is not settled is left out of a song's line", () => {
  expect(songFacts({ key: "Em", tempo: 116, length: 265 })).toBe("Em · 116 · 4:25");
  expect(songFacts({ key: "", tempo: null, length: 265 })).toBe("4:25");
  expect(songFacts({ key: "", tempo: null, length: null })).toBe("");
});
