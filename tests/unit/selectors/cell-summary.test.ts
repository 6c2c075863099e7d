import { expect, test } from "vitest";
import type { SongFile } from "#shared/board/board.ts";
import type { Card } from "#shared/board/card.ts";
import { partCardId } from "#shared/board/ids.ts";
import type { Level } from "#shared/board/status.ts";
import { type CellSummary, cellSummary, sameCell } from "#shared/selectors/cell-summary.ts";
import { partView } from "#shared/selectors/part-view.ts";
import { aReading, SEATED } from "#tests/support/a-row.ts";
import { SONG } from "#tests/support/histories.ts";
import { aCard, aMark, aRun, aSong, asked } from "#tests/support/ready-song.ts";

/** The guitar's cell of a song with these cards, marked by the guitarist. */
const guitarCell = (
  marks: readonly (readonly [Partial<Card>, Level])[],
  change: Partial<SongFile> = {},
  most = 7,
  seat: string | null = "tomasz",
): CellSummary => {
  const cards = marks.map(([card], i) => aCard(`c${i}`, card));
  const statuses = new Map(marks.map(([, level], i) => [`c${i}`, new Map([["tomasz", aMark(level, 10)]])]));
  const file = aSong({ cards, statuses, ...change });
  const lineUp = new Map(asked(file, 20).lineUp).set("gt", seat);
  const reading = aReading(file, 20, 20, { lineUp });
  const [guitar] = SEATED;
  if (guitar === undefined) throw new Error("no guitar");
  return cellSummary(partView({ ...reading, score: reading.today }, guitar), most, SEATED);
};

test("musts come first and large, lifts after them, polish folds into the count", () => {
  const cell = guitarCell([
    [{ weight: "polish" }, 1],
    [{ weight: "lift" }, 2],
    [{ weight: "must" }, 3],
  ]);
  expect(cell.heads.map(({ level, large }) => [level, large])).toEqual([
    [3, true],
    [2, false],
  ]);
  expect(cell.beyond).toBe(1);
  expect(cell.word).toBe("locked in");
  expect(cell.label).toBe("1 must: locked in; 1 lift: practised; 1 polish");
});

test("at most the given number of heads, then a count", () => {
  const cell = guitarCell(
    Array.from({ length: 6 }, () => [{ weight: "must" }, 2] as const),
    {},
    4,
  );
  expect(cell.heads).toHaveLength(4);
  expect(cell.beyond).toBe(2);
  expect(cell.word).toBe("0 of 6 locked in");
});

test("one must says its status, several say how many are locked in", () => {
  expect(guitarCell([[{}, 1]]).word).toBe("noticed");
  expect(
    guitarCell([
      [{}, 3],
      [{}, 1],
      [{}, 3],
    ]).word,
  ).toBe("2 of 3 locked in");
});

test("a part without a must says so", () => {
  expect(guitarCell([[{ weight: "lift" }, 3]]).word).toBe("no must yet");
  const polish = guitarCell([[{ weight: "polish" }, 3]]);
  expect(polish.word).toBe("no must yet");
  expect(polish.beyond).toBe(1);
});

test("unknown, tacet, uncovered and nothing special read apart", () => {
  const casting = { song: SONG, chair: "gt", plays: true, needed: true, holder: null, share: 1 };
  expect(guitarCell([])).toMatchObject({ state: "unknown", heads: [], word: "not said yet", label: "" });
  expect(guitarCell([[{}, 3]], {}, 7, null)).toMatchObject({ state: "uncovered", word: "nobody on it" });
  const tacet = new Map([["gt", { ...casting, plays: false, nothingSpecial: null }]]);
  expect(guitarCell([], { castings: tacet })).toMatchObject({ state: "tacet", word: "", heads: [] });
  const plain = new Map([["gt", { ...casting, nothingSpecial: "tomasz" }]]);
  expect(guitarCell([], { castings: plain }).word).toBe("nothing special");
});

test("a part known only as a whole shows one small head", () => {
  const statuses = new Map([[partCardId(SONG, "gt"), new Map([["tomasz", aMark(2, 10)]])]]);
  expect(guitarCell([], { statuses })).toMatchObject({
    heads: [{ level: 2, large: false, slipped: false, waiting: false }],
    beyond: 0,
    word: "part practised",
  });
});

test("a slip outweighs everything else in the word, and strikes its head", () => {
  const slip = { chair: "gt", card: "c1", severity: 1, at: 0, writer: "phone" } as const;
  const cell = guitarCell(
    [
      [{}, 3],
      [{}, 3],
    ],
    { takes: [aRun(15, { slips: [slip] })] },
  );
  expect(cell.word).toBe("slipped");
  expect(cell.heads.map(({ slipped }) => slipped)).toEqual([false, true]);
});

test("a shared detail never played together waits, for the one partner by name", () => {
  const two = guitarCell([[{ chairs: ["gt", "bs"] }, 3]]);
  expect(two.word).toBe("waits for Bs");
  expect(two.heads).toEqual([{ level: 2, large: true, slipped: false, waiting: true }]);
  expect(guitarCell([[{ chairs: ["gt", "bs", "dr"] }, 3]]).word).toBe("waits for a run");
});

test("two cells are the same exactly while they look and read the same", () => {
  const cell = guitarCell([[{}, 3]]);
  expect(sameCell(cell, guitarCell([[{}, 3]]))).toBe(true);
  expect(sameCell(cell, guitarCell([[{}, 2]]))).toBe(false);
  expect(sameCell(cell, { ...cell, beyond: 1 })).toBe(false);
});
