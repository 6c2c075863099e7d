import { expect, test } from "vitest";
import { lineRange, previewLines, songsToAdd, unreadLines } from "#shared/exchange/list-preview.ts";
import { readSongList } from "#shared/exchange/song-list.ts";

const TABLE = [
  "Title,Key,Tempo,Length",
  "Marzipan Diesel,D,112,4:00",
  ",Em,116,4:25",
  'Tollbooth "Cinnamon,A,94,3:50',
  '"Low Tide,C,54,4:18',
  "Marzipan Diesel,E,fast,3.45",
].join("\n");

test("each line shows the song that was read and what to look at there", () => {
  const lines = previewLines(readSongList(TABLE));
  expect(lines.map(({ line, song, problems }) => [line, song?.title ?? null, problems.length])).toEqual([
    [2, "Marzipan Diesel", 0],
    [3, null, 1],
    [4, 'Tollbooth "Cinnamon', 0],
    [5, null, 1],
    [6, "Marzipan Diesel", 3],
  ]);
});

test("a song that comes twice is added only where somebody chose to keep it", () => {
  const list = readSongList(TABLE);
  expect(songsToAdd(list, new Set()).map(({ line }) => line)).toEqual([2, 4]);
  expect(songsToAdd(list, new Set([6])).map(({ line }) => line)).toEqual([2, 4, 6]);
});

test("lines without a song stay behind under their header and can be mended", () => {
  const left = unreadLines(TABLE, readSongList(TABLE));
  expect(left.split("\n")).toEqual(["Title,Key,Tempo,Length", ",Em,116,4:25", '"Low Tide,C,54,4:18']);
  const mended = left.replace(",Em", "Paper Lighthouse,Em").replace('"Low', "Low");
  expect(readSongList(mended).songs.map(({ title, key }) => [title, key])).toEqual([
    ["Paper Lighthouse", "Em"],
    ["Low Tide", "C"],
  ]);
});

test("nothing stays behind when every line was read", () => {
  const text = "Marzipan Diesel\n\nTollbooth Cinnamon";
  expect(unreadLines(text, readSongList(text))).toBe("");
});

test("a title that is too long stays behind whole", () => {
  const long = "x".repeat(10_000);
  const text = `Marzipan Diesel\n${long}`;
  expect(unreadLines(text, readSongList(text))).toBe(long);
});

test("songs beyond the most that are read at a time stay behind", () => {
  const text = Array.from({ length: 503 }, (_, n) => `Song number ${n + 1}`).join("\n");
  expect(unreadLines(text, readSongList(text)).split("\n")).toEqual([
    "Song number 501",
    "Song number 502",
    "Song number 503",
  ]);
});

test.each(["\n", "\r\n", "\r"])("a line is found in the text whatever the line ends (%j)", (end) => {
  const text = ["one", "two", "", "four"].join(end);
  const found = [1, 2, 3, 4].map((line) => text.slice(...lineRange(text, line)));
  expect(found).toEqual(["one", "two", "", "four"]);
});
