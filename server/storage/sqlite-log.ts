import { createHash } from "node:crypto";
import type { Database } from "better-sqlite3";
import type { Guarded, Write } from "./sqlite-write.ts";
import type { NewSnapshot, StoredUpdate, UpdateLog } from "./update-log.ts";

interface SnapshotRow {
  document: string;
  up_to: number;
  at: number;
  schema: number;
  state_vector: Uint8Array;
  bytes: Uint8Array;
  sum: string;
}

type LogRow = Omit<StoredUpdate, "snapshot">;

/** An earlier snapshot is kept for history when so many rows would have to be read without it. */
const CHECKPOINT_ROWS = 2000;
const NO_LIMIT = -1;

/** The log, its archive and its snapshots as tables. A snapshot's sum tells a damaged one. */
export const sqliteLog = (db: Database, guarded: Guarded, write: Write): Omit<UpdateLog, "flush"> => {
  const sql = statements(db);

  /** The newest whole snapshot at or before a place. */
  const snapshotAt = (document: string, seq: number): StoredUpdate | null => {
    for (const row of sql.snapshots.iterate(document, seq))
      if (row.sum === sumOf(row.bytes)) return fromSnapshot(row);
    return null;
  };
  const foldAt = (document: string, seq: number): StoredUpdate[] => {
    const snapshot = snapshotAt(document, seq);
    const rows = sql.between.all({ document, after: snapshot?.seq ?? 0, upTo: seq });
    return [...(snapshot === null ? [] : [snapshot]), ...rows.map(plain)];
  };

  const compact = db.transaction((document: string, { upTo, ...snapshot }: NewSnapshot) => {
    sql.addSnapshot.run({ document, upTo, ...snapshot, sum: sumOf(snapshot.bytes) });
    sql.archive.run(document, upTo);
    sql.forgetFolded.run(document, upTo);
    const [, , third, fourth] = sql.places.all(document).map(({ up_to }) => up_to);
    if (third === undefined) return;
    const between = sql.archivedBetween.get(document, fourth ?? 0, third)?.rows ?? 0;
    if (between < CHECKPOINT_ROWS) sql.dropSnapshot.run(document, third);
  });

  const prune = db.transaction((before: number): number => {
    sql.pruneSnapshots.run({ before });
    return sql.prune.run(before).changes;
  });

  return {
    append: (update) => guarded(() => Number(sql.insert.run(update).lastInsertRowid)),
    load: async (document) => guarded(() => foldAt(document, Number.MAX_SAFE_INTEGER)),
    compact: (document, snapshot) => write(() => compact(document, snapshot)),
    history: async (document, { after = 0, before = Number.MAX_SAFE_INTEGER, limit = NO_LIMIT }) =>
      guarded(() => sql.history.all({ document, after, before, limit }).map(plain).reverse()),
    loadAt: async (document, seq) => guarded(() => foldAt(document, seq)),
    prune: (before) => write(() => prune(before)),
    forget: (document) => write(db.transaction(() => forgetDocument(db, document))),
    usage: async (document) =>
      guarded(() => {
        const latest = sql.latestSize.get(document);
        const tail = sql.tailUsage.get(document, latest?.up_to ?? 0);
        const archive = sql.archiveUsage.get(document);
        return {
          bytes: (latest?.bytes ?? 0) + (tail?.bytes ?? 0),
          rows: tail?.rows ?? 0,
          archivedRows: archive?.rows ?? 0,
          archivedBytes: archive?.bytes ?? 0,
        };
      }),
  };
};

/** Deletes all that the log holds of a document; call it inside a transaction. */
export const forgetDocument = (db: Database, document: string): void => {
  for (const table of ["updates", "archive", "snapshots"])
    db.prepare(`DELETE FROM ${table} WHERE document = ?`).run(document);
};

const sumOf = (bytes: Uint8Array): string => createHash("sha256").update(bytes).digest("base64url");

const plain = (row: LogRow): StoredUpdate => ({ ...row, snapshot: null });

const fromSnapshot = (row: SnapshotRow): StoredUpdate => ({
  document: row.document,
  seq: row.up_to,
  device: "server",
  member: null,
  at: row.at,
  bytes: row.bytes,
  snapshot: { stateVector: row.state_vector, schema: row.schema },
});

interface Usage {
  rows: number;
  bytes: number;
}

const COLUMNS = "document, seq, device, member, at, bytes";

const statements = (db: Database) => ({
  insert: db.prepare(
    "INSERT INTO updates (document, device, member, at, bytes) VALUES (@document, @device, @member, @at, @bytes)",
  ),
  snapshots: db.prepare<[string, number], SnapshotRow>(
    "SELECT * FROM snapshots WHERE document = ? AND up_to <= ? ORDER BY up_to DESC",
  ),
  places: db.prepare<[string], { up_to: number }>(
    "SELECT up_to FROM snapshots WHERE document = ? ORDER BY up_to DESC LIMIT 4",
  ),
  addSnapshot: db.prepare(
    `INSERT OR REPLACE INTO snapshots (document, up_to, at, schema, state_vector, bytes, sum)
     VALUES (@document, @upTo, @at, @schema, @stateVector, @bytes, @sum)`,
  ),
  dropSnapshot: db.prepare("DELETE FROM snapshots WHERE document = ? AND up_to = ?"),
  archive: db.prepare(
    `INSERT INTO archive (${COLUMNS}) SELECT ${COLUMNS} FROM updates WHERE document = ? AND seq <= ?`,
  ),
  forgetFolded: db.prepare("DELETE FROM updates WHERE document = ? AND seq <= ?"),
  archivedBetween: db.prepare<[string, number, number], { rows: number }>(
    "SELECT count(*) AS rows FROM archive WHERE document = ? AND seq > ? AND seq <= ?",
  ),
  between: db.prepare<[{ document: string; after: number; upTo: number }], LogRow>(
    `SELECT ${COLUMNS} FROM archive WHERE document = @document AND seq > @after AND seq <= @upTo
     UNION ALL SELECT ${COLUMNS} FROM updates WHERE document = @document AND seq > @after AND seq <= @upTo
     ORDER BY seq`,
  ),
  history: db.prepare<[{ document: string; after: number; before: number; limit: number }], LogRow>(
    `SELECT ${COLUMNS} FROM archive WHERE document = @document AND seq > @after AND seq < @before
     UNION ALL SELECT ${COLUMNS} FROM updates WHERE document = @document AND seq > @after AND seq < @before
     ORDER BY seq DESC LIMIT @limit`,
  ),
  // Of the snapshots before the moment only the newest is needed as the first state; the two newest of all always stay.
  pruneSnapshots: db.prepare(
    `DELETE FROM snapshots WHERE at < @before
     AND up_to < (SELECT max(up_to) FROM snapshots AS s WHERE s.document = snapshots.document AND s.at < @before)
     AND (SELECT count(*) FROM snapshots AS s WHERE s.document = snapshots.document AND s.up_to > snapshots.up_to) >= 2`,
  ),
  prune: db.prepare(
    `DELETE FROM archive WHERE at < ?
     AND seq <= (SELECT min(up_to) FROM snapshots WHERE snapshots.document = archive.document
                 HAVING count(*) >= 2)`,
  ),
  latestSize: db.prepare<[string], { up_to: number; bytes: number }>(
    "SELECT up_to, length(bytes) AS bytes FROM snapshots WHERE document = ? ORDER BY up_to DESC LIMIT 1",
  ),
  tailUsage: db.prepare<[string, number], Usage>(
    "SELECT count(*) AS rows, coalesce(sum(length(bytes)), 0) AS bytes FROM updates WHERE document = ? AND seq > ?",
  ),
  archiveUsage: db.prepare<[string], Usage>(
    "SELECT count(*) AS rows, coalesce(sum(length(bytes)), 0) AS bytes FROM archive WHERE document = ?",
  ),
});
