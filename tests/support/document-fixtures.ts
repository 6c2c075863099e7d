/** Documents as released code wrote them, kept in tests/golden/documents, and the boards they must read as. */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { gunzipSync } from "node:zlib";
import * as Y from "yjs";
import type { Board } from "#shared/board/board.ts";

export const FIXTURES = new URL("../golden/documents/", import.meta.url);

/** What stands in `schema-N.json`. */
export interface FixtureLabel {
  readonly schema: number;
  readonly songs: number;
  readonly details: number;
  readonly takes: number;
  readonly gigs: number;
  readonly issues: number;
  /** SHA-256 of the update in `schema-N.bin` and of the snapshot in `schema-N.board.gz`, both uncompressed. */
  readonly update: string;
  readonly board: string;
}

export interface DocumentFixture {
  readonly label: FixtureLabel;
  readonly update: Uint8Array;
  readonly board: string;
}

/**
 * A board as JSON, without the record of its migrations, which differs from schema to schema by design. Maps are lists
 * of pairs, so that a record too many is seen.
 */
export const snapshotOf = ({ migrations: _, ...board }: Board): string =>
  JSON.stringify(board, (_key, value: unknown) =>
    value instanceof Map || value instanceof Set ? [...value] : value,
  );

export const sha256 = (content: string | Uint8Array): string =>
  createHash("sha256").update(content).digest("hex");

export const documentOf = (...updates: readonly Uint8Array[]): Y.Doc => {
  const ydoc = new Y.Doc();
  for (const update of updates) Y.applyUpdate(ydoc, update);
  return ydoc;
};

const read = (file: string): Buffer => readFileSync(new URL(file, FIXTURES));

/** Every fixture, oldest schema first. */
export const documentFixtures = (): readonly DocumentFixture[] =>
  readdirSync(FIXTURES)
    .filter((name) => name.endsWith(".json"))
    .map((name) => {
      const label = JSON.parse(read(name).toString()) as FixtureLabel;
      const stem = name.slice(0, -".json".length);
      const board = gunzipSync(read(`${stem}.board.gz`)).toString();
      return { label, update: new Uint8Array(gunzipSync(read(`${stem}.bin`))), board };
    })
    .sort((a, b) => a.label.schema - b.label.schema);

/**
 * Where `actual` lacks or contradicts something `expected` says, as paths. A field that a later release added to a
 * record is no difference; an element too many in a list is.
 */
export const missingFrom = (expected: unknown, actual: unknown, path = ""): readonly string[] => {
  if (typeof expected !== "object" || expected === null) return Object.is(expected, actual) ? [] : [path];
  if (typeof actual !== "object" || actual === null) return [path];
  if (Array.isArray(expected) && (!Array.isArray(actual) || actual.length !== expected.length)) return [path];
  return Object.entries(expected).flatMap(([key, value]) =>
    missingFrom(value, Object.hasOwn(actual, key) ? Reflect.get(actual, key) : undefined, `${path}/${key}`),
  );
};
