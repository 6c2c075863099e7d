import { expect, test } from "vitest";
import { keepWaiting, keptWaiting, takeForSlip } from "#shared/selectors/waiting-slips.ts";
import { NOON, smallBand } from "#tests/support/command-bench.ts";

const DAY = "2026-03-04";
const MINUTE = 60_000;
const diesel = () => {
  const file = smallBand().board().songs.get("diesel");
  if (file === undefined) throw new Error("no song");
  return file;
};

test("a slip goes with the take that was logged nearest to the moment its song was left", () => {
  const trial = smallBand();
  const log = (at: number, id: string) =>
    trial.done(
      "logTake",
      { song: "diesel", occasion: `r:${DAY}`, kind: "run", at, seats: [], feel: "clean" },
      { writer: "other" },
      id,
    );
  log(NOON + 8 * MINUTE, "second");
  const file = trial.board().songs.get("diesel");
  if (file === undefined) throw new Error("no song");
  // The song lasts 200 seconds; a take and the time to log it are five minutes and a third.
  expect(takeForSlip(file, { at: NOON + MINUTE }, DAY)?.at).toBe(NOON);
  expect(takeForSlip(file, { at: NOON + 7 * MINUTE }, DAY)?.at).toBe(NOON + 8 * MINUTE);
});

test("it waits while no take of its evening is near", () => {
  expect(takeForSlip(diesel(), { at: NOON + 30 * MINUTE }, DAY)).toBeNull();
  expect(takeForSlip(diesel(), { at: NOON }, "2026-03-05")).toBeNull();
});

test("what waits is kept for its evening, and nonsense counts as nothing", () => {
  const slip = { song: "diesel", chair: null, card: "choke", severity: 1, at: NOON } as const;
  expect(keptWaiting(keepWaiting(DAY, [slip]), DAY)).toEqual([slip]);
  expect(keptWaiting(keepWaiting(DAY, [slip]), "2026-03-05")).toEqual([]);
  for (const text of ["", "{", "[]", '{"day":"2026-03-04","slips":[{}]}'])
    expect(keptWaiting(text, DAY)).toEqual([]);
});
