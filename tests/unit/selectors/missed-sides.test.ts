import { expect, test } from "vitest";
import { concerning, knownFrom } from "#shared/selectors/catch-up/concerns.ts";
import { digestOf } from "#shared/selectors/catch-up/digest.ts";
import { NOON, smallBand } from "#tests/support/command-bench.ts";

const whose = { member: "lucia", writer: "another phone" };
const from = "2026-03-04";

/** What stands on the list of what was missed while `change` happened. */
const missed = (change: (trial: ReturnType<typeof smallBand>) => void): string => {
  const trial = smallBand();
  const known = knownFrom(concerning(trial.board(), { ...whose, from, since: NOON }));
  change(trial);
  const asOf = NOON + 86_400_000;
  return JSON.stringify(digestOf({ board: trial.board(), known, whose, since: NOON, asOf }).items);
};

test("whoever was away is told what stands beside their detail now, what is off included", () => {
  const told = missed((trial) => {
    const value = { gain: 0, effects: [{ name: "echo", on: false }] };
    trial.done("describeSide", { card: "choke", side: "tone", value }, { member: "minjae" });
  });
  expect(told).toContain("Beside the words");
  expect(told).toContain("Gain 0 of 10; echo off.");
});

test("what was written and taken off again is no news", () => {
  const told = missed((trial) => {
    trial.done("describeSide", { card: "choke", side: "dynamics", value: { from: 2 } }, { member: "minjae" });
    trial.done("describeSide", { card: "choke", side: "dynamics", value: null }, { member: "minjae" });
  });
  expect(told).toBe("[]");
});
