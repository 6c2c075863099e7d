import { expect, test } from "vitest";
import type { SongFile } from "#shared/board/board.ts";
import type { Id } from "#shared/board/ids.ts";
import { effectiveStatus } from "#shared/readiness/effective-status.ts";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { DAY_MS, START } from "#tests/support/histories.ts";
import { aCard, aMark, aRun, aSong, asked, holderOf } from "#tests/support/ready-song.ts";

const riff = aCard("riff");
const ending = aCard("ending", { chairs: ["gt", "bs", "dr"], kind: "ending" });
const locked = (id: Id, chairs: readonly Id[], day = 20) =>
  [id, new Map(chairs.map((chair) => [holderOf(chair), aMark(3, day)]))] as const;
const STATUSES = new Map([locked("riff", ["gt"]), locked("ending", ["gt", "bs", "dr"])]);
const GT = holderOf("gt");

const judged = (change: Partial<SongFile>, id: Id, member = GT) =>
  effectiveStatus(asked(aSong({ cards: [riff, ending], statuses: STATUSES, ...change }), 60), id, member);

const slipOn = (card: Id, chair: Id | null = null) =>
  ({ chair, card, severity: 1, at: 0, writer: "phone" }) as const;

test("a mark that nothing speaks against is worth what it says", () => {
  expect(judged({}, "riff")).toEqual({ level: 3, marked: 3, reason: { is: "as marked" } });
  expect(judged({ statuses: new Map() }, "riff")).toEqual({
    level: 0,
    marked: 0,
    reason: { is: "as marked" },
  });
});

test("a slip after the mark takes locked in back to practised, and names the take", () => {
  const take = aRun(25, { slips: [slipOn("riff")] });
  expect(judged({ takes: [take] }, "riff")).toEqual({
    level: 2,
    marked: 3,
    reason: { is: "slipped since", take },
  });
});

test("a slip before the mark is forgiven: the player raised it again", () => {
  expect(judged({ takes: [aRun(15, { slips: [slipOn("riff")] })] }, "riff").level).toBe(3);
});

test("a partner's slip on another chair leaves my mark alone", () => {
  const takes = [aRun(22), aRun(25, { slips: [slipOn("ending", "bs")] })];
  expect(judged({ takes }, "ending").level).toBe(3);
  expect(judged({ takes }, "ending", holderOf("bs")).reason.is).toBe("slipped since");
});

test("locked in on a shared card waits for a run together and names who is missing", () => {
  expect(judged({}, "ending")).toEqual({
    level: 2,
    marked: 3,
    reason: { is: "needs a run together", missing: [holderOf("bs"), holderOf("dr")], vacant: [] },
  });
  const withoutBass = aRun(22, { seats: aRun(22).seats.filter(({ chair }) => chair !== "bs") });
  expect(judged({ takes: [withoutBass] }, "ending").reason).toMatchObject({ missing: [holderOf("bs")] });
  expect(judged({ takes: [withoutBass, aRun(29)] }, "ending").level).toBe(3);
});

test("two runs that had every partner, but never at once, do not make a run together", () => {
  const without = (chair: Id, day: number) =>
    aRun(day, { seats: aRun(day).seats.filter((seat) => seat.chair !== chair) });
  const { reason } = judged({ takes: [without("bs", 22), without("dr", 29)] }, "ending");
  expect(reason).toMatchObject({ is: "needs a run together", missing: [holderOf("bs"), holderOf("dr")] });
});

test.each([
  ["a drill", aRun(22, { kind: "drill" })],
  ["a stopped run", aRun(22, { feel: "stopped" })],
  ["a run with a slip on the card by a partner", aRun(22, { slips: [slipOn("ending", "bs")] })],
  ["a run of other cards", aRun(22, { scope: { of: "cards", cards: ["riff"] } })],
])("%s is no run together", (_, take) => {
  expect(judged({ takes: [take] }, "ending").reason.is).toBe("needs a run together");
});

test("a run together before the card was changed does not hold its lock", () => {
  const changed = { ...ending, since: START + 15 * DAY_MS };
  expect(judged({ cards: [changed], takes: [aRun(10)] }, "ending").reason.is).toBe("needs a run together");
  expect(judged({ cards: [changed], takes: [aRun(16)] }, "ending").level).toBe(3);
});

test("nobody on one of the chairs: the shared card cannot be locked in, and the chair is named", () => {
  const input = asked(aSong({ cards: [ending], statuses: STATUSES, takes: [aRun(22)] }), 60);
  const lineUp = new Map(input.lineUp).set("dr", null);
  expect(effectiveStatus({ ...input, lineUp }, "ending", GT).reason).toEqual({
    is: "needs a run together",
    missing: [],
    vacant: ["dr"],
  });
});

test("a substitute starts apart: the run with the usual player does not count for this line-up", () => {
  const input = asked(aSong({ cards: [ending], statuses: STATUSES, takes: [aRun(22)] }), 60);
  const lineUp = new Map(input.lineUp).set("bs", "dep-karim");
  expect(effectiveStatus({ ...input, lineUp }, "ending", GT).reason).toMatchObject({
    missing: ["dep-karim"],
  });
});

test("a mark made before the card was changed with learn again says no more than noticed", () => {
  const changed = { ...riff, since: START + 30 * DAY_MS };
  expect(judged({ cards: [changed] }, "riff")).toMatchObject({
    level: 1,
    marked: 3,
    reason: { is: "changed since" },
  });
});

test("changing the song's ending unsettles ending cards and leaves the others", () => {
  const file = aSong({ cards: [riff, { ...ending, chairs: ["gt"] }], statuses: STATUSES });
  const since = { ...file.song.since, ending: START + 30 * DAY_MS };
  const input = asked({ ...file, song: { ...file.song, since } }, 60);
  expect(effectiveStatus(input, "ending", GT).reason.is).toBe("changed since");
  expect(effectiveStatus(input, "riff", GT).reason.is).toBe("as marked");
});

test("one row judged alone agrees with the whole song's score", () => {
  const takes = [aRun(22), aRun(25, { slips: [slipOn("ending", "bs"), slipOn("riff")] })];
  const input = asked(aSong({ cards: [riff, ending], statuses: STATUSES, takes }), 60);
  for (const { unit, status } of scoreSong(input).units) {
    if (unit.statusId === null || unit.member === null) continue;
    expect(effectiveStatus(input, unit.statusId, unit.member)).toEqual(status);
  }
});
