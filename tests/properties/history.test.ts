/** Whatever rows a server hands out, they fold into a history that can be walked in any direction. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { ROOT_MAP_NAMES } from "#shared/document/root-maps.ts";
import type { StoredValues } from "#shared/document/stored-values.ts";
import { entriesOf } from "#shared/history/entries.ts";
import { foldHistory, type HistoryRow } from "#shared/history/history.ts";
import { createPastBoards } from "#shared/history/past-boards.ts";
import { valuesAt } from "#shared/history/past-values.ts";
import { laws } from "#tests/support/fuzz.ts";
import { ROLLED } from "#tests/support/random-commands.ts";
import { type Move, playMoves, recordBoard } from "#tests/support/recorded-board.ts";

const timeout = 300_000 * Number(process.env.TIGHTROW_FUZZ ?? 1);

const move: fc.Arbitrary<Move> = fc.record({
  command: fc.constantFrom("addSong", "addDetail", "addChair", "markDetail", ...ROLLED),
  device: fc.nat(2),
  a: fc.nat(5),
  b: fc.nat(5),
  c: fc.nat(11),
});
const moves = fc.array(move, { minLength: 5, maxLength: 60, size: "max" });

const rowsOf = (all: readonly Move[]): readonly HistoryRow[] => {
  const recorded = recordBoard();
  playMoves(recorded, all);
  return recorded.rows;
};

const contentOf = (values: StoredValues): unknown =>
  Object.fromEntries(
    ROOT_MAP_NAMES.map((map) => [map, [...values.entries(map)].sort(([a], [b]) => (a < b ? -1 : 1))]),
  );

/** A device that got the base and the rows with numbers up to `seq`, and could not read the damaged ones. */
const deviceWith = (base: Uint8Array | null, rows: readonly HistoryRow[], seq = Number.POSITIVE_INFINITY) => {
  const ydoc = new Y.Doc();
  for (const bytes of [...(base === null ? [] : [base]), ...upTo(rows, seq).map((row) => row.bytes)]) {
    try {
      Y.applyUpdate(ydoc, bytes);
    } catch {
      // What it could not read it does not have.
    }
  }
  return createBoardDocument(ydoc);
};

const upTo = (rows: readonly HistoryRow[], seq: number): readonly HistoryRow[] =>
  [...rows].sort((a, b) => a.seq - b.seq).filter((row) => row.seq <= seq);

const mergedBase = (rows: readonly HistoryRow[]): Uint8Array | null =>
  rows.length === 0 ? null : Y.mergeUpdates(rows.map(({ bytes }) => bytes));

describe("[HIST-1] folding", () => {
  test("base and rows end where a device with the same updates stands, and each step leads to the next", {
    timeout,
  }, () => {
    fc.assert(
      fc.property(moves, fc.nat(20), (all, cut) => {
        const rows = rowsOf(all);
        const base = mergedBase(rows.slice(0, cut));
        const history = foldHistory(base, rows.slice(cut));
        expect(history.issues).toEqual([]);
        expect(contentOf(history.end)).toEqual(contentOf(deviceWith(base, rows.slice(cut))));
        expect(contentOf(valuesAt(history, -1))).toEqual(contentOf(history.start));
        for (const { seq } of history.steps.slice(0, 3))
          expect(contentOf(valuesAt(history, seq))).toEqual(contentOf(deviceWith(base, rows, seq)));
      }),
      laws(300),
    );
  });

  test("rows that come before what they build on are reported, and end up in the same place", {
    timeout,
  }, () => {
    let early = 0;
    fc.assert(
      fc.property(moves, fc.nat(), (all, seed) => {
        const rows = rowsOf(all);
        const mixed = rows
          .map((row, i) => ({ row, key: Math.imul(i + 1, seed | 1) >>> 0 }))
          .sort((a, b) => a.key - b.key)
          .map(({ row }, i) => ({ ...row, seq: i + 1 }));
        const history = foldHistory(null, mixed);
        early += history.issues.length;
        expect(contentOf(history.end)).toEqual(contentOf(deviceWith(null, rows)));
      }),
      laws(200),
    );
    expect(early).toBeGreaterThan(100);
  });

  test("damaged rows are reported and the others keep their meaning", { timeout }, () => {
    let damaged = 0;
    fc.assert(
      fc.property(
        moves,
        fc.array(fc.tuple(fc.nat(60), fc.uint8Array({ maxLength: 40 })), { maxLength: 4 }),
        (all, junk) => {
          const rows = rowsOf(all);
          const broken = rows.map((row) => {
            const bytes = junk.find(([place]) => place === row.seq - 1)?.[1];
            return bytes === undefined ? row : { ...row, bytes };
          });
          const history = foldHistory(null, broken);
          damaged += history.issues.length;
          expect(contentOf(history.end)).toEqual(contentOf(deviceWith(null, broken)));
          expect(history.steps.map(({ seq }) => seq)).toEqual(rows.map(({ seq }) => seq));
          for (const { message } of history.issues) expect(message).toMatch(/^[A-Z].*\.$/);
        },
      ),
      laws(200),
    );
    expect(damaged).toBeGreaterThan(50);
  });

  test("of a base that is no update at all there is an issue, and the rows still count", () => {
    const rows = rowsOf([{ command: "addSong", device: 0, a: 1, b: 1, c: 1 }]);
    const history = foldHistory(new Uint8Array([9, 9, 9, 9]), rows);
    expect(history.issues).toMatchObject([{ seq: null }]);
    expect([...history.end.entries("songs")].length).toBeGreaterThan(0);
  });
});

describe("[HIST-2] a history", () => {
  test("gives the board at a row that a device with the rows up to it reads, in any order of asking", {
    timeout,
  }, () => {
    fc.assert(
      fc.property(moves, fc.array(fc.nat(60), { minLength: 1, maxLength: 8 }), (all, asked) => {
        const rows = rowsOf(all);
        const boards = createPastBoards(foldHistory(null, rows));
        for (const seq of asked) expect(boards.at(seq)).toEqual(readBoard(deviceWith(null, rows, seq)));
      }),
      laws(200),
    );
  });

  test("keeps the reference of what a step did not touch, and of a board asked for twice", () => {
    const recorded = recordBoard();
    for (const title of ["Marzipan Diesel", "Umbrella Season"]) recorded.run("addSong", { title });
    recorded.run("reviseSong", { song: "run-2", fields: { tempo: 118 } });
    const boards = createPastBoards(foldHistory(null, recorded.rows));
    const [before, after] = [boards.at(2), boards.at(3)];
    expect(after.songs.get("run-1")).toBe(before.songs.get("run-1"));
    expect(after.songs.get("run-2")).not.toBe(before.songs.get("run-2"));
    expect(boards.at(2)).toBe(before);
  });

  test("is told by entries that hold every change once", { timeout }, () => {
    fc.assert(
      fc.property(moves, (all) => {
        const history = foldHistory(null, rowsOf(all));
        // Played on their own, one after the other by their last row, the entries lead to the same end.
        const reached = new Map<string, unknown>();
        const entries = [...entriesOf(history)].sort((a, b) => a.lastSeq - b.lastSeq);
        const told = new Set<string>();
        for (const { changes, id } of entries)
          for (const { map, key, before, after } of changes) {
            const name = `${map} ${key}`;
            expect(told.has(`${id} ${name}`)).toBe(false);
            told.add(`${id} ${name}`);
            expect(before).toEqual(reached.get(name));
            reached.set(name, after);
          }
        const end = ROOT_MAP_NAMES.flatMap((map) =>
          [...history.end.entries(map)].map(([key, value]) => [`${map} ${key}`, value] as const),
        );
        expect([...reached].sort()).toEqual([...end].sort());
      }),
      laws(200),
    );
  });
});
