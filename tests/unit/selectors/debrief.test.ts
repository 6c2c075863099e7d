import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import type { GigSong } from "#shared/board/band.ts";
import type { SongFile } from "#shared/board/board.ts";
import { GATES } from "#shared/board/gate.ts";
import { FEELS } from "#shared/board/take.ts";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { readCsv } from "#shared/exchange/csv.ts";
import { writePerformed } from "#shared/exchange/performed-csv.ts";
import { debriefRows, openRows, swapSentences } from "#shared/selectors/debrief.ts";
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
    const [first, second] = debriefRows(board, gig);
    if (first === undefined || second === undefined) throw new Error("The gig has too few songs.");
    const plain = { ...first, leftOut: false, take: null };
    expect(swapSentences([plain])).toEqual([]);
    expect(
      swapSentences([
        { ...plain, title: "A", leftOut: true },
        { ...plain, title: "D", called: false, leftOut: true },
        { ...plain, title: "B", called: false, take: second.take },
        { ...plain, title: "C" },
      ]),
    ).toEqual(["Played though not called: B.", "Called and left out: A."]);
  });

  test("asks about every called song until it is logged or left out, and about no other", () => {
    const blank = { ...gig, id: "blank", told: new Map() };
    const rows = debriefRows(board, blank);
    expect(openRows(rows)).toEqual(rows);
    const [out, unsaid] = rows;
    if (out === undefined || unsaid === undefined) throw new Error("The gig has too few songs.");
    const told = { ...blank, told: new Map([[out.song, { leftOut: true, floorDid: "" as const }]]) };
    expect(openRows(debriefRows(board, told)).map(({ song }) => song)).toEqual(
      rows.slice(1).map(({ song }) => song),
    );
    const other = [...board.songs.keys()].find((song) => rows.every((row) => row.song !== song)) ?? "";
    const withOther = debriefRows(board, blank, [other]);
    expect(withOther.at(-1)).toMatchObject({ song: other, called: false, take: null });
    expect(openRows(withOther)).toEqual(rows);
  });

  test("takes a song that was logged as played, whatever was said before, and keeps what the floor did", () => {
    const [played] = debriefRows(board, gig).filter(({ take }) => take !== null);
    if (played === undefined) throw new Error("The demo's last gig has no take.");
    const told = new Map([[played.song, { leftOut: true, floorDid: "emptied" as const }]]);
    const row = debriefRows(board, { ...gig, told }).find(({ song }) => song === played.song);
    expect(row).toMatchObject({ leftOut: false, floorDid: "emptied", take: played.take });
  });

  test("gives the titles performed as a table that reads back", () => {
    const [head, ...rows] = readCsv(writePerformed(board, gig).slice(1), ",");
    expect(head?.cells).toEqual(["Position", "Title", "Key", "Tempo", "Minutes", "Date", "Place"]);
    const played = debriefRows(board, gig).filter(({ take }) => take !== null);
    expect(rows.map(({ cells }) => cells[1])).toEqual(played.map(({ title }) => title));
    expect(rows.map(({ cells }) => cells[0])).toEqual(played.map((_, i) => String(i + 1)));
    for (const { cells } of rows) {
      expect(cells[4]).toMatch(/^\d+\.\d$/);
      expect(cells.slice(5)).toEqual([gig.date, gig.place]);
      // How it went is the band's own business.
      for (const feel of FEELS) expect(cells).not.toContain(feel);
    }
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

describe("what is done after a gig changes nothing of what was expected of it", () => {
  const before = [...outcomesOf(board, "2026-03-05")];
  const changed = (change: (file: SongFile) => SongFile) => [
    ...outcomesOf(
      { ...board, songs: new Map([...board.songs].map(([id, file]) => [id, change(file)])) },
      "2026-03-05",
    ),
  ];
  const withMust = (createdAt: number) => (file: SongFile) => {
    const cards = file.cards
      .slice(-1)
      .map((card) => ({ ...card, id: `${card.id}-new`, weight: "must" as const, createdAt }));
    return { ...file, cards: [...file.cards, ...cards] };
  };

  test("a new must; one written before the gig does change it", () => {
    expect(changed(withMust(NOW))).toEqual(before);
    expect(changed(withMust(Date.UTC(2025, 0, 1)))).not.toEqual(before);
  });

  test("somebody who says on the day itself, or later, that they cannot come", () => {
    const said = (at: number) =>
      [
        ...outcomesOf(
          {
            ...board,
            aways: board.gigs.flatMap(({ date }) =>
              [...board.people.keys()].map((person) => ({
                id: `${date}-${person}`,
                person,
                from: date,
                to: date,
                by: "" as const,
                at,
              })),
            ),
          },
          "2026-03-05",
        ),
      ].map(({ score }) => score);
    expect(said(NOW)).toEqual(before.map(({ score }) => score));
    expect(said(Date.UTC(2025, 0, 1)).every((score) => score === 0)).toBe(true);
  });

  test("a gate that is waived", () => {
    const waived = (at: number) => {
      const waivers = (songs: readonly GigSong[]) =>
        songs.flatMap(({ song }) => GATES.map((gate) => ({ song, gate, by: "m", at, note: "" })));
      const gigs = board.gigs.map((one) => ({ ...one, waivers: waivers(one.songs) }));
      return [...outcomesOf({ ...board, gigs }, "2026-03-05")];
    };
    expect(waived(NOW)).toEqual(before);
    expect(waived(Date.UTC(2025, 0, 1)).filter(({ ready }) => ready).length).toBeGreaterThan(
      before.filter(({ ready }) => ready).length,
    );
  });
});
