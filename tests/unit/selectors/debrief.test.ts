import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { readCsv } from "#shared/exchange/csv.ts";
import { writePerformed } from "#shared/exchange/performed-csv.ts";
import { debriefRows, swapSentences } from "#shared/selectors/debrief.ts";
import { outcomesOf } from "#shared/selectors/hit-rate.ts";

const NOW = Date.UTC(2026, 2, 5, 9);
const ydoc = new Y.Doc();
seedDemo(ydoc, NOW, "Europe/Lisbon");
const board = readBoard(createBoardDocument(ydoc));
const past = board.gigs.filter(({ date }) => date < "2026-03-05");
const gig = past.at(-1) ?? board.gigs[0];
if (gig === undefined) throw new Error("The demo has no gig.");

describe("the debrief of a gig", () => {
  test("has the called songs in their order, each with the gig's own take and no other", () => {
    const rows = debriefRows(board, gig);
    expect(rows.filter(({ called }) => called).map(({ song }) => song)).toEqual(
      gig.songs.map(({ song }) => song),
    );
    expect(rows.some(({ take }) => take !== null)).toBe(true);
    for (const { take } of rows) if (take !== null) expect(take.occasion).toBe(`g:${gig.id}`);
  });

  test("says what was swapped, and nothing while nothing is logged", () => {
    const [first, second, ...rest] = debriefRows(board, gig);
    if (first === undefined || second === undefined) throw new Error("The gig has too few songs.");
    const take = [first, second, ...rest].find((row) => row.take !== null)?.take ?? null;
    expect(swapSentences([{ ...first, take: null }])).toEqual([]);
    expect(
      swapSentences([
        { ...first, title: "A", called: true, take: null },
        { ...second, title: "B", called: false, take },
      ]),
    ).toEqual(["Played though not called: B.", "Called and not logged as played: A."]);
  });

  test("gives the titles performed as a table that reads back", () => {
    const [head, ...rows] = readCsv(writePerformed(board, gig).slice(1), ",");
    expect(head?.cells.slice(0, 3)).toEqual(["Position", "Title", "Key"]);
    const played = debriefRows(board, gig).filter(({ take }) => take !== null);
    expect(rows.map(({ cells }) => cells[1])).toEqual(played.map(({ title }) => title));
    expect(rows.map(({ cells }) => cells[0])).toEqual(played.map((_, i) => String(i + 1)));
  });
});

test("every song logged at a past gig is one outcome, and no other is", () => {
  const outcomes = [...outcomesOf(board, "2026-03-05")];
  const logged = past.flatMap(({ id }) =>
    [...board.songs.values()].filter(({ takes }) => takes.some(({ occasion }) => occasion === `g:${id}`)),
  );
  expect(outcomes).toHaveLength(logged.length);
  expect(outcomes.length).toBeGreaterThan(10);
  for (const { score } of outcomes) {
    expect(score).toBeGreaterThanOrEqual(0);
    expect(score).toBeLessThanOrEqual(1);
  }
  expect([...outcomesOf(board, past[0]?.date ?? "")]).toEqual([]);
});
