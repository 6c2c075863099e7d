/**
 * Writes the fixture of the current schema into tests/golden/documents:
 * `node tests/run.mjs tests/support/write-document-fixture.ts`. Run it before a release; never for a released schema,
 * whose fixture must be what that release wrote. `--again` overwrites one that is there.
 */
import { existsSync, mkdirSync, writeFileSync } from "node:fs";
import { resolve } from "node:path";
import { gzipSync } from "node:zlib";
import * as Y from "yjs";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { SCHEMA } from "#shared/document/migrations/migrate.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { type FixtureLabel, sha256, snapshotOf } from "./document-fixtures.ts";
import { fixtureDocument } from "./fixture-document.ts";

const ydoc = fixtureDocument();
const board = readBoard(createBoardDocument(ydoc));
const update = Y.encodeStateAsUpdate(ydoc);
const snapshot = snapshotOf(board);
const files = [...board.songs.values()];
const sum = (count: (file: (typeof files)[number]) => number): number =>
  files.reduce((total, file) => total + count(file), 0);
const label: FixtureLabel = {
  schema: SCHEMA,
  songs: files.length,
  details: sum(({ cards }) => cards.length),
  takes: sum(({ takes }) => takes.length),
  gigs: board.gigs.length,
  issues: board.issues.length,
  update: sha256(update),
  board: sha256(snapshot),
};

// The bundle runs from another folder, so the way starts where the runner was called.
const folder = resolve("tests/golden/documents");
const stem = resolve(folder, `schema-${label.schema}`);
if (existsSync(`${stem}.bin`) && !process.argv.includes("--again")) {
  console.error(`There is a fixture of schema ${label.schema}. A released one is never written again.`);
  process.exit(1);
}
mkdirSync(folder, { recursive: true });
writeFileSync(`${stem}.bin`, gzipSync(update, { level: 9 }));
writeFileSync(`${stem}.board.gz`, gzipSync(snapshot, { level: 9 }));
writeFileSync(`${stem}.json`, `${JSON.stringify(label, null, 2)}\n`);
console.log(JSON.stringify(label));
