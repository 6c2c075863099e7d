import { expect, test } from "vitest";
import type { Chair } from "#shared/board/band.ts";
import type { Casting } from "#shared/board/song.ts";
import { severityOf, slipChoices, withSlip } from "#shared/selectors/slip-choices.ts";
import { CHAIRS, SONG } from "#tests/support/histories.ts";
import { aCard, aSong, holderOf } from "#tests/support/ready-song.ts";

const chairs = CHAIRS.map(
  (id): Chair => ({ id, name: id, short: id, instrument: "other", holder: holderOf(id), order: id }),
);
const names = { member: (id: string) => id, chair: (id: string) => id };
const tacet: Casting = {
  song: SONG,
  chair: "dr",
  plays: false,
  needed: true,
  holder: null,
  share: 1,
  nothingSpecial: null,
};
const file = aSong({
  castings: new Map([["dr", tacet]]),
  cards: [
    aCard("one", { chairs: ["bs"] }),
    aCard("shared", { chairs: ["gt", "vx"] }),
    aCard("half", { chairs: ["gt", "dr"], weight: "lift" }),
    aCard("all", { chairs: [...CHAIRS], weight: "lift" }),
    aCard("polish", { weight: "polish" }),
    aCard("spotted", { chairs: [] }),
    aCard("drums only", { chairs: ["dr"] }),
  ],
});
const choices = slipChoices(file, chairs, names);

test("musts and lifts can slip; polish, spotted details and those nobody plays are left out", () => {
  expect(choices.musts.map(({ card }) => card)).toEqual(["one", "shared"]);
  expect(choices.lifts.map(({ card }) => card)).toEqual(["half", "all"]);
  expect(choices.chairs.map(({ chair }) => chair)).toEqual(["gt", "bs", "vx"]);
});

test("a slip is on the player where only one plays it, and on the detail where several share it", () => {
  const [one, shared] = choices.musts;
  expect(one).toMatchObject({ chair: "bs", note: "whole · bs" });
  expect(shared).toMatchObject({ chair: null, note: "whole · gt, vx" });
  expect(choices.lifts.map(({ chair, note }) => [chair, note])).toEqual([
    ["gt", "whole · gt"],
    [null, "whole · everybody"],
  ]);
});

test("setting a slip replaces the one on the same spot only, and 0 takes it out", () => {
  const nobody = choices.nobody;
  const chair = { chair: "gt", card: null };
  const two = withSlip(withSlip([], nobody, 1), chair, 2);
  expect([severityOf(two, nobody), severityOf(two, chair)]).toEqual([1, 2]);
  const milder = withSlip(two, chair, 0.5);
  expect([severityOf(milder, nobody), severityOf(milder, chair)]).toEqual([1, 0.5]);
  expect(withSlip(milder, nobody, 0)).toEqual([{ ...chair, severity: 0.5 }]);
});
