import { expect, test } from "vitest";
import { pastSong } from "#shared/selectors/past-song.ts";
import { smallBand } from "#tests/support/command-bench.ts";

const board = smallBand().board();
const file = board.songs.get("diesel");
if (file === undefined) throw new Error("The band has no such song");
const song = pastSong(file, board);

test("what was settled is told by its label, and the rest is left out", () => {
  expect(song.facts).toEqual([
    ["Our key", "Em"],
    ["Tempo", "112"],
    ["Metre", "4/4"],
    ["Length", "3:20"],
  ]);
  expect(song.form).toBe("Verse 8 · Outro 4");
});

test("each chair names who played, and each detail what its players had said", () => {
  expect(song.cast).toEqual(["Drums: Lucía Borrasco", "Bass: Min-jae Pardal"]);
  expect(song.details.find(({ id }) => id === "choke")).toMatchObject({
    text: "Choke on 4-and",
    marks: ["Lucía Borrasco: practised"],
  });
  const spotted = song.details.find(({ id }) => id === "root");
  expect(spotted?.about).toMatch(/not placed yet$/);
  expect(spotted?.marks).toEqual([]);
});

test("takes stand with their day and how they went", () => {
  expect(song.takes).toEqual(["4 March, run: wobble"]);
});
