import fc from "fast-check";
import { expect, test } from "vitest";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { pointsOf } from "#shared/selectors/points.ts";
import { EVENTS_SHOWN, scoreLines } from "#shared/selectors/score-lines.ts";
import { laws } from "#tests/support/fuzz.ts";
import { history } from "#tests/support/histories.ts";
import { aCard, aMark, aRun, aSong, asked, readyFile } from "#tests/support/ready-song.ts";

test("the lines hold every unit once; contributions make the score, and whole points add up beside it", () => {
  fc.assert(
    fc.property(history, (input) => {
      const score = scoreSong(input);
      const parts = scoreLines(input.file, score);
      const units = parts.flatMap((part) => part.units);
      expect(units).toHaveLength(score.units.length);
      expect(new Set(units.map(({ key }) => key)).size).toBe(units.length);
      expect(parts.reduce((sum, part) => sum + part.contribution, 0)).toBeCloseTo(score.score, 10);
      expect(parts.reduce((sum, part) => sum + part.points, 0)).toBe(pointsOf(score.score));
      expect(parts.reduce((sum, part) => sum + part.ofPoints, 0)).toBe(100);
    }),
    laws(),
  );
});

test("what loses most comes first, among the parts and within each", () => {
  fc.assert(
    fc.property(history, (input) => {
      const parts = scoreLines(input.file, scoreSong(input));
      for (const lost of [parts.map((p) => p.lost), ...parts.map((p) => p.units.map((u) => u.lost))])
        expect(lost).toEqual([...lost].sort((a, b) => b - a));
    }),
    laws(),
  );
});

test("a line tells the latest takes first and how many there were before", () => {
  const slip = { chair: "gt", card: "must-gt", severity: 1, at: 0, writer: "phone" } as const;
  const takes = [
    aRun(3),
    aRun(10),
    aRun(17, { feel: "wobble" }),
    aRun(24, { slips: [slip] }),
    aRun(25, { feel: "stopped" }),
  ];
  const file = { ...readyFile(), takes };
  const units = scoreLines(file, scoreSong(asked(file, 26))).flatMap((part) => part.units);
  const line = units.find(({ card }) => card?.id === "must-gt");
  expect(line?.events.map(({ words }) => words)).toEqual([
    "slipped in the run of 25 January",
    "a wobble in the run of 18 January",
    "clean in the run of 11 January",
  ]);
  expect(line?.events).toHaveLength(EVENTS_SHOWN);
  expect(line?.moreEvents).toBe(1);
  expect(line?.slipped).toBe(true);
});

test("a shared detail played without its partner says that it counts as work alone", () => {
  const card = aCard("both", { chairs: ["gt", "bs"] });
  const alone = aRun(10, { seats: [{ chair: "gt", member: "tomasz" }] });
  const file = aSong({
    cards: [card],
    statuses: new Map([["both", new Map([["tomasz", aMark(3, 10)]])]]),
    takes: [alone],
  });
  const units = scoreLines(file, scoreSong(asked(file, 20))).flatMap((part) => part.units);
  const mine = units.find(({ key }) => key === "card both gt");
  expect(mine?.events[0]?.words).toContain("counts as work alone");
  expect(mine?.waiting).toBeGreaterThan(0);
});
