import * as Y from "yjs";
import { SCHEMA } from "#shared/document/migrations/migrate.ts";
import type { StoredUpdate } from "../storage/update-log.ts";
import { missingFrame, updateFrame } from "./frames.ts";

/** What the rows of a document tell without building it. */
export interface StoredFacts {
  /** Place of the last row; 0 = there is none. */
  readonly lastSeq: number;
  /** Bytes of everything that folds to the document. */
  readonly bytes: number;
  /** Rows after the newest snapshot, and their bytes. */
  readonly tailRows: number;
  readonly tailBytes: number;
  /** True when there is a snapshot. */
  readonly folded: boolean;
  /** How far each client's changes are stored; null when only the document itself can tell. */
  readonly heads: ReadonlyMap<number, number> | null;
}

const NOTHING = Uint8Array.of(0, 0);

/** `rows` as the log answers them: the newest snapshot, if there is one, and what came after it. */
export const readFacts = (rows: readonly StoredUpdate[]): StoredFacts => {
  const tail = tailOf(rows);
  return {
    lastSeq: rows.at(-1)?.seq ?? 0,
    bytes: bytesOf(rows),
    tailRows: tail.length,
    tailBytes: bytesOf(tail),
    folded: rows[0]?.snapshot != null,
    heads: headsOf(rows),
  };
};

/**
 * The frames that give a device without anything the whole document. It counts as synced with the second step of the
 * protocol, which therefore comes last. Many small rows are sent as one: each would be a transaction of its own there.
 */
export const wholeFrames = (updates: readonly Uint8Array[]): readonly Uint8Array[] => {
  const [first, ...rest] = updates;
  if (first === undefined) return [missingFrame(NOTHING)];
  if (rest.length === 0) return [missingFrame(first)];
  return [updateFrame(first), missingFrame(rest.length === 1 ? (rest[0] ?? NOTHING) : Y.mergeUpdates(rest))];
};

/** Known without the document only behind a snapshot of this release's shape, when each row builds on the ones before. */
const headsOf = (rows: readonly StoredUpdate[]): ReadonlyMap<number, number> | null => {
  const [first] = rows;
  if (first === undefined) return new Map();
  if (first.snapshot === null || first.snapshot.schema < SCHEMA) return null;
  try {
    const heads = Y.decodeStateVector(first.snapshot.stateVector);
    for (const { bytes } of tailOf(rows)) {
      const { from, to } = Y.parseUpdateMeta(bytes);
      for (const [client, clock] of from) if (clock > (heads.get(client) ?? 0)) return null;
      for (const [client, clock] of to) heads.set(client, Math.max(clock, heads.get(client) ?? 0));
    }
    return heads;
  } catch {
    // A row that cannot be read is left out when the document is built; then that is what tells.
    return null;
  }
};

const tailOf = (rows: readonly StoredUpdate[]): readonly StoredUpdate[] =>
  rows[0]?.snapshot ? rows.slice(1) : rows;

const bytesOf = (rows: readonly StoredUpdate[]): number =>
  rows.reduce((sum, { bytes }) => sum + bytes.length, 0);
