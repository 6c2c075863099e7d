import { expect, test } from "vitest";
import { callSheet } from "#shared/selectors/call-sheet.ts";
import { smallBand } from "#tests/support/command-bench.ts";

const sheetOf = (trial: ReturnType<typeof smallBand>) => {
  const board = trial.board();
  const gig = board.gigs.find(({ id }) => id === "harbour");
  if (gig === undefined) throw new Error("The gig is not on the board.");
  return callSheet(board, gig);
};
const only = (trial: ReturnType<typeof smallBand>, songs: readonly string[]) =>
  trial.done("arrangeGig", { gig: "harbour", blocks: [songs] });

test("says what is said and leaves out what is not", () => {
  const trial = smallBand();
  trial.done("reviseGig", { gig: "harbour", call: "17:30", start: "", dress: "", contact: "", blocks: [] });
  const labels = () => sheetOf(trial).facts.map(({ label }) => label);
  expect(labels()).toContain("Everybody there at");
  expect(labels()).not.toContain("Playing from");
  trial.done("reviseGig", { gig: "harbour", blocks: [40, 35], minutes: 75 });
  expect(sheetOf(trial).facts).toContainEqual({ label: "Minutes", text: "40 and 35, 75 in all" });
});

test("lists the called songs with what differs that night, and no other", () => {
  const trial = smallBand();
  only(trial, ["diesel"]);
  trial.done("tuneForGig", { gig: "harbour", song: "diesel", key: "Dm", tempo: 108 });
  const [block, ...more] = sheetOf(trial).blocks;
  expect(more).toEqual([]);
  expect(block?.rows.map(({ title, startsAt }) => [title, startsAt])).toEqual([["Marzipan Diesel", "0:00"]]);
  expect(block?.rows[0]?.played).toMatch(/^Dm · 108/);
});

test("leaves a chair empty whose player is away that day", () => {
  const trial = smallBand();
  const drums = () => sheetOf(trial).lineUp.find(({ label }) => label === "Drums")?.text;
  trial.done("seatForGig", { gig: "harbour", chair: "drums", member: null });
  expect(drums()).toBe("Lucía Borrasco");
  trial.done("sayAway", { person: "lucia", from: "2026-04-18", to: "2026-04-18" });
  expect(drums()).toBe("nobody");
});
