/** Documents as each released schema wrote them must load for ever, and read as the board they were. */
import { statSync } from "node:fs";
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { createBoardDocument } from "#shared/document/board-document.ts";
import {
  finishedMigrations,
  MIGRATIONS,
  migrate,
  migrationsCurrent,
  SCHEMA,
  unknownMigrations,
} from "#shared/document/migrations/migrate.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { RECORD_FIELDS } from "#shared/document/record-fields.ts";
import { ROOT_MAP_NAMES, type RootMap } from "#shared/document/root-maps.ts";
import {
  documentFixtures,
  documentOf,
  FIXTURES,
  missingFrom,
  sha256,
  snapshotOf,
} from "#tests/support/document-fixtures.ts";
import { fixtureDocument } from "#tests/support/fixture-document.ts";

const fixtures = documentFixtures();
const boardOf = (ydoc: Y.Doc): unknown => JSON.parse(snapshotOf(readBoard(createBoardDocument(ydoc))));

describe("[DOC-7] documents of every released schema", () => {
  test("there is one for each, up to the current", () => {
    expect(fixtures.map(({ label }) => label.schema)).toEqual(
      Array.from({ length: SCHEMA + 1 }, (_, n) => n),
    );
  });

  test("each is what was written then, and small", () => {
    for (const { label, update, board } of fixtures) {
      expect([sha256(update), sha256(board)]).toEqual([label.update, label.board]);
      expect(statSync(new URL(`schema-${label.schema}.bin`, FIXTURES)).size).toBeLessThan(150_000);
    }
  });

  test.each(fixtures)(
    "schema $label.schema reads, unmigrated, as the board it was",
    ({ update, board, label }) => {
      const ydoc = documentOf(update);
      const document = createBoardDocument(ydoc);
      expect(finishedMigrations(document).size).toBe(label.schema);
      expect(migrationsCurrent(document)).toBe(label.schema === SCHEMA);
      expect(missingFrom(JSON.parse(board), boardOf(ydoc))).toEqual([]);
    },
  );

  test.each(fixtures)(
    "schema $label.schema migrates to the same board, and only once",
    ({ update, board, label }) => {
      const ydoc = documentOf(update);
      const document = createBoardDocument(ydoc);
      expect(migrate(document)).toEqual(MIGRATIONS.slice(label.schema).map(({ id }) => id));
      expect(migrationsCurrent(document)).toBe(true);
      expect(missingFrom(JSON.parse(board), boardOf(ydoc))).toEqual([]);
      const clock = Y.encodeStateVector(ydoc);
      expect(migrate(document)).toEqual([]);
      expect(Y.encodeStateVector(ydoc)).toEqual(clock);
    },
  );

  test.each(fixtures)(
    "two replicas of schema $label.schema that migrate apart agree with one that did",
    ({ update }) => {
      const [left, right, alone] = [documentOf(update), documentOf(update), documentOf(update)] as const;
      for (const ydoc of [left, right, alone]) migrate(createBoardDocument(ydoc));
      Y.applyUpdate(left, Y.encodeStateAsUpdate(right));
      Y.applyUpdate(right, Y.encodeStateAsUpdate(left));
      for (const ydoc of [left, right]) expect(boardOf(ydoc)).toEqual(boardOf(alone));
    },
  );

  test("a later release that changed something would be seen", () => {
    const ydoc = documentOf(...fixtures.slice(-1).map(({ update }) => update));
    createBoardDocument(ydoc).transact("test", (set) => set("songs", "every/tempo", 94));
    const differing = fixtures
      .slice(-1)
      .flatMap(({ board }) => missingFrom(JSON.parse(board), boardOf(ydoc)));
    expect(differing.filter((path) => path.endsWith("/song/tempo"))).toHaveLength(1);
    expect(differing).toHaveLength(1);
  });

  test("migrations of a newer release are named", () => {
    expect(unknownMigrations(["0001-settings-by-key", "9999-later"])).toEqual(["9999-later"]);
  });
});

describe("the document of the current schema", () => {
  const document = createBoardDocument(fixtureDocument());
  const keysOf = (map: RootMap): readonly string[] => [...document.entries(map)].map(([key]) => key);
  test("uses every root map and every field of the schema", () => {
    expect(ROOT_MAP_NAMES.filter((map) => keysOf(map).length === 0)).toEqual([]);
    const unused = Object.entries(RECORD_FIELDS).flatMap(([map, fields]) =>
      Object.keys(fields).filter(
        (field) => !keysOf(map as RootMap).some((key) => `/${key}`.endsWith(`/${field}`)),
      ),
    );
    expect(unused).toEqual([]);
  });
});
