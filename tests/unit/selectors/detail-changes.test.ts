import { expect, test } from "vitest";
import type { Status } from "#shared/board/status.ts";
import { changeSentence, changesOf } from "#shared/selectors/detail-changes.ts";
import { foldDetails } from "#shared/selectors/part-folds.ts";
import { aCard, aMark } from "#tests/support/ready-song.ts";

const mark = (level: Status["level"], from: Status["from"], day: number, writer = "phone"): Status => ({
  ...aMark(level, day),
  from,
  writer,
});

const statuses = new Map([
  [
    "c1",
    new Map([
      ["tomasz", mark(2, 1, 10)],
      ["anneli", mark(3, 2, 62, "tablet")],
      ["karim", mark(3, 3, 10, "later-device")],
    ]),
  ],
]);

const words = {
  names: { member: (id: string) => `member ${id}`, chair: (id: string) => id },
  timeZone: "Europe/Lisbon",
  today: "2026-03-14",
  writer: "phone",
};

test("each person's last change is told, the latest first", () => {
  expect(changesOf({ statuses }, "c1").map((change) => changeSentence(change, words))).toEqual([
    "member anneli: practised → locked in, 4 March, on another device",
    "member tomasz: noticed → practised, 11 January, on this device",
    "member karim: locked in, said again, 11 January, on another device",
  ]);
});

test("a detail nobody has marked has no changes", () => {
  expect(changesOf({ statuses }, "other")).toEqual([]);
});

test("a change of last year says its year", () => {
  const [latest] = changesOf({ statuses }, "c1");
  if (latest === undefined) throw new Error("there is a change");
  expect(changeSentence(latest, { ...words, today: "2027-01-02" })).toContain("4 March 2026");
});

test("musts and lifts stand in sight up to the band's number, polish is folded", () => {
  const line = (id: string, weight: "must" | "lift" | "polish") => ({
    card: aCard(id, { weight }),
    standings: [],
  });
  const details = [line("a", "must"), line("b", "must"), line("c", "lift"), line("d", "polish")];
  const ids = (lines: readonly { card: { id: string } }[]) => lines.map(({ card }) => card.id);
  const folds = foldDetails(details, 2);
  expect([ids(folds.shown), ids(folds.more), ids(folds.polish)]).toEqual([["a", "b"], ["c"], ["d"]]);
});
