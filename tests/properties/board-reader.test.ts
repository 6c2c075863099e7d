/**
 * The reader is total and incremental: whatever a document holds, following it key by key says what a reading from
 * scratch says, and nothing throws.
 */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import type { Board, SongFile } from "#shared/board/board.ts";
import { type BoardDocument, createBoardDocument } from "#shared/document/board-document.ts";
import { createBoardReader, readBoard } from "#shared/document/read/board-reader.ts";
import { namesChair, songOfBody } from "#shared/document/read/read-card.ts";
import { ROOT_MAP_NAMES } from "#shared/document/root-maps.ts";
import { laws } from "#tests/support/fuzz.ts";
import { FOUNDATION, litter, playOn, rolls } from "#tests/support/random-steps.ts";

const timeout = 120_000 * Number(process.env.TIGHTROW_FUZZ ?? 1);
/** True when a touched key names the song, or something whose content is part of the song's file. */
const mentions = (touched: ReadonlySet<string>, file: SongFile, document: BoardDocument): boolean =>
  touched.has(file.song.id) ||
  [...file.statuses.keys(), ...file.cards.map(({ id }) => id)].some((card) => touched.has(card)) ||
  [...touched].some((key) => songOfBody(document.get("rulings", key)) === file.song.id) ||
  [...touched].some((key) => songOfBody(document.get("questions", key)) === file.song.id) ||
  [...touched].some((card) => songOfBody(document.get("cards", `${card}/body`)) === file.song.id) ||
  [...document.entries("cards")].some(
    ([key, body]) =>
      songOfBody(body) === file.song.id &&
      namesChair(
        new Map([
          ["body", body],
          ["grid", document.get("cards", `${key.slice(0, key.lastIndexOf("/"))}/grid`)],
          ["recordedGrid", document.get("cards", `${key.slice(0, key.lastIndexOf("/"))}/recordedGrid`)],
        ]),
        touched,
      ),
  );

describe("the reader", () => {
  test(
    "[DOC-2] says after every command what a reading from scratch says",
    () => {
      fc.assert(
        fc.property(fc.array(rolls, { minLength: 1, maxLength: 12 }), (steps) => {
          const document = createBoardDocument(new Y.Doc());
          playOn(document, [...FOUNDATION, ...steps], (board) => expect(board).toEqual(readBoard(document)));
        }),
        laws(400),
      );
    },
    timeout,
  );

  test(
    "[DOC-1] reads any rubbish among the records, never throws, and follows it key by key",
    () => {
      fc.assert(
        fc.property(fc.array(fc.oneof(rolls, litter, litter), { minLength: 1, maxLength: 12 }), (steps) => {
          const document = createBoardDocument(new Y.Doc());
          playOn(document, [...FOUNDATION, ...steps], (board) => expect(board).toEqual(readBoard(document)));
        }),
        laws(400),
      );
    },
    timeout,
  );

  test(
    "[DOC-2] says what a reading from scratch says when keys are gone, which no command does",
    () => {
      const gone = fc.array(fc.tuple(fc.nat(), fc.nat()), { minLength: 1, maxLength: 6 });
      fc.assert(
        fc.property(fc.array(fc.oneof(rolls, litter), { maxLength: 12 }), gone, (steps, picks) => {
          const ydoc = new Y.Doc();
          const document = createBoardDocument(ydoc);
          playOn(document, [...FOUNDATION, ...steps], () => {});
          const reader = createBoardReader(document);
          document.onTouched((touched) => reader.refresh(touched));
          for (const [a, b] of picks) {
            const maps = ROOT_MAP_NAMES.filter((name) => ydoc.getMap(name).size > 0);
            const map = ydoc.getMap(maps[a % Math.max(1, maps.length)] ?? "band");
            map.delete([...map.keys()].sort()[b % Math.max(1, map.size)] ?? "");
            expect(reader.board()).toEqual(readBoard(document));
          }
        }),
        laws(400),
      );
    },
    timeout,
  );

  test(
    "[DOC-3] keeps the reference of every song that a change is not about",
    () => {
      fc.assert(
        fc.property(fc.array(rolls, { minLength: 1, maxLength: 12 }), (steps) => {
          const document = createBoardDocument(new Y.Doc());
          let before: Board | null = null;
          let touched = new Set<string>();
          document.onTouched((maps) => {
            touched = new Set(
              [...maps.values()].flatMap((keys) => [...keys].flatMap((key) => key.split("/"))),
            );
          });
          playOn(document, [...FOUNDATION, ...steps], (board) => {
            for (const [id, file] of before?.songs ?? []) {
              const now = board.songs.get(id);
              if (now !== undefined && now !== file) expect(mentions(touched, now, document)).toBe(true);
            }
            before = board;
            touched = new Set();
          });
        }),
        laws(400),
      );
    },
    timeout,
  );

  test(
    "[DOC-4] does not depend on the order in which two devices' changes arrive",
    () => {
      fc.assert(
        fc.property(fc.array(rolls, { maxLength: 8 }), fc.array(litter, { maxLength: 8 }), (mine, theirs) => {
          const [left, right, seed] = [new Y.Doc(), new Y.Doc(), new Y.Doc()];
          playOn(createBoardDocument(seed), FOUNDATION, () => {});
          for (const doc of [left, right]) Y.applyUpdate(doc, Y.encodeStateAsUpdate(seed));
          playOn(createBoardDocument(left), mine, () => {});
          playOn(createBoardDocument(right), theirs, () => {});
          const readers = [left, right].map((doc) => {
            const document = createBoardDocument(doc);
            const reader = createBoardReader(document);
            document.onTouched((touched) => reader.refresh(touched));
            return reader;
          });
          const updates = [left, right].map((doc) => Y.encodeStateAsUpdate(doc));
          if (updates[1] !== undefined) Y.applyUpdate(left, updates[1]);
          if (updates[0] !== undefined) Y.applyUpdate(right, updates[0]);
          expect(readers[0]?.board()).toEqual(readers[1]?.board());
          expect(readers[0]?.board()).toEqual(readBoard(createBoardDocument(right)));
        }),
        laws(400),
      );
    },
    timeout,
  );
});
