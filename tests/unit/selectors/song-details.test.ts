import { expect, test } from "vitest";
import type { Chair } from "#shared/board/band.ts";
import type { Casting } from "#shared/board/song.ts";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { songDetails } from "#shared/selectors/song-details.ts";
import { CHAIRS, SONG } from "#tests/support/histories.ts";
import { aCard, aMark, aSong, asked, holderOf } from "#tests/support/ready-song.ts";

const chairs = CHAIRS.map(
  (id): Chair => ({ id, name: id, short: id, instrument: "other", holder: holderOf(id), order: id }),
);
const arrangedOut: Casting = {
  song: SONG,
  chair: "dr",
  plays: false,
  needed: true,
  holder: null,
  share: 1,
  nothingSpecial: null,
};
const file = aSong({
  cards: [
    aCard("spotted", { chairs: [] }),
    aCard("shared", { chairs: ["vx", "dr", "gt"] }),
    aCard("cover", { chairs: ["gt"], without: "bs" }),
  ],
  castings: new Map([["dr", arrangedOut]]),
  statuses: new Map([["shared", new Map([["tomasz", aMark(1, 1)]])]]),
});
const input = asked(file, 30);
const lines = songDetails({ file, chairs, lineUp: input.lineUp, score: scoreSong(input) });

test("every detail of the song is there, spotted ones and covers included", () => {
  expect(lines.map(({ card }) => card.id)).toEqual(["spotted", "shared", "cover"]);
});

test("its players stand in column order, without those who have nothing to play", () => {
  const shared = lines.find(({ card }) => card.id === "shared");
  expect(shared?.standings.map(({ chair, level }) => [chair, level])).toEqual([
    ["gt", 1],
    ["vx", 0],
  ]);
});

test("a spotted detail has no players", () => {
  expect(lines[0]?.standings).toEqual([]);
});
