import { expect, test } from "vitest";
import { onTheNight } from "#shared/readiness/forecast.ts";
import { plannedTake } from "#shared/readiness/planned.ts";
import { raiseMost } from "#shared/readiness/raise.ts";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { MEMBERS } from "#tests/support/histories.ts";
import { aCard, aMark, aRun, aSong, asked, readyFile } from "#tests/support/ready-song.ts";

const riff = aCard("riff");
const ending = aCard("ending", { chairs: ["gt", "bs"] });
const young = aSong({
  cards: [riff, ending],
  statuses: new Map([
    ["riff", new Map([["tomasz", aMark(1, 20)]])],
    [
      "ending",
      new Map([
        ["tomasz", aMark(3, 20)],
        ["ifeoma", aMark(0, 20)],
      ]),
    ],
  ]),
  takes: [aRun(10)],
});
const input = asked(young, 26, 33);

test("each difference is exactly the score on the night after that action alone, less the score without it", () => {
  const before = scoreSong(input).score;
  for (const { after, difference } of raiseMost(input)) expect(difference).toBe(after - before);
});

test("the run is the same as a clean run by the line-up in the log now", () => {
  const run = raiseMost(input).find(({ action }) => action.do === "run");
  const logged = aRun(26, { at: input.asOf, id: "~now" });
  expect(run?.after).toBe(scoreSong({ ...input, file: { ...young, takes: [...young.takes, logged] } }).score);
});

test("what raises most comes first, and nothing is listed twice", () => {
  const raises = raiseMost(input);
  expect(raises.map(({ difference }) => difference)).toEqual(
    raises.map(({ difference }) => difference).toSorted((a, b) => b - a),
  );
  expect(raises.filter(({ action }) => action.do === "drill")).toHaveLength(2);
  expect(raises.some(({ action }) => action.do === "seat")).toBe(false);
});

test("drilling a shared card takes all its players one level on", () => {
  const drill = raiseMost(input).find(({ action }) => action.do === "drill" && action.card === ending);
  expect(drill?.action).toEqual({ do: "drill", card: ending, members: ["ifeoma", "tomasz"] });
  expect(drill?.difference).toBeGreaterThan(0);
});

test("an empty chair can be filled by a newcomer or by somebody who already knows the part", () => {
  const known = {
    ...readyFile(),
    takes: readyFile().takes.map((take) => ({
      ...take,
      seats: take.seats.map((seat) => (seat.chair === "dr" ? { ...seat, member: "dep-karim" } : seat)),
    })),
  };
  const open = asked(known, 26, 33);
  const vacant = { ...open, lineUp: new Map(open.lineUp).set("dr", null) };
  const seats = raiseMost(vacant, MEMBERS).filter(({ action }) => action.do === "seat");
  const difference = (member: string | null) =>
    seats.find(({ action }) => action.do === "seat" && action.member === member)?.difference ?? Number.NaN;
  expect(seats.map(({ action }) => (action.do === "seat" ? action.member : "")).toSorted()).toEqual(
    ["dep-karim", "minjae", null].toSorted(),
  );
  expect(difference(null)).toBeGreaterThan(0);
  expect(difference("dep-karim")).toBeGreaterThan(0);
  const seated = scoreSong({ ...vacant, lineUp: new Map(vacant.lineUp).set("dr", "dep-karim") }).score;
  expect(difference("dep-karim")).toBe(seated - scoreSong(vacant).score);
});

test("on the night, untouched, a song is never better than today", () => {
  const { untouched, planned } = onTheNight(input);
  expect(planned).toBe(untouched);
  expect(untouched.score).toBeLessThan(scoreSong(asked(young, 26)).score);
});

test("planned takes raise the forecast, takes logged with a later date stay out of it", () => {
  const { plan } = scoreSong(input);
  const run = plannedTake(young, plan, { kind: "run", scope: { of: "whole" }, at: aRun(30).at });
  const { untouched, planned } = onTheNight(input, [run]);
  expect(planned.score).toBeGreaterThan(untouched.score);
  const dreamt = { ...input, file: { ...young, takes: [...young.takes, aRun(31)] } };
  expect(onTheNight(dreamt, [run]).planned.score).toBe(planned.score);
});
