import type { Database } from "better-sqlite3";
import { StorageUnavailable } from "./storage.ts";

/** Steps from each version of the tables to the next; the version is kept in `user_version`. Never edit a released one. */
const STEPS: readonly string[] = [
  `
  CREATE TABLE boards (
    id TEXT PRIMARY KEY, name TEXT NOT NULL, demo INTEGER NOT NULL,
    created_at INTEGER NOT NULL, retired_at INTEGER
  ) STRICT;
  CREATE TABLE links (
    id TEXT PRIMARY KEY, board TEXT NOT NULL, role TEXT NOT NULL, secret_hash TEXT NOT NULL UNIQUE,
    label TEXT NOT NULL, created_at INTEGER NOT NULL, expires_at INTEGER, revoked_at INTEGER
  ) STRICT;
  CREATE INDEX links_of_board ON links (board);
  CREATE TABLE devices (
    id TEXT PRIMARY KEY, board TEXT NOT NULL, role TEXT NOT NULL, token_hash TEXT NOT NULL UNIQUE,
    member_id TEXT, created_at INTEGER NOT NULL
  ) STRICT;
  CREATE TABLE updates (
    seq INTEGER PRIMARY KEY AUTOINCREMENT, board TEXT NOT NULL, device TEXT NOT NULL, member TEXT,
    at INTEGER NOT NULL, bytes BLOB NOT NULL
  ) STRICT;
  CREATE INDEX updates_of_board ON updates (board);
  `,
  `
  ALTER TABLE boards ADD COLUMN erased_at INTEGER;
  ALTER TABLE boards ADD COLUMN document TEXT NOT NULL DEFAULT '';
  ALTER TABLE boards ADD COLUMN season INTEGER NOT NULL DEFAULT 1;
  ALTER TABLE boards ADD COLUMN recovery_hash TEXT;
  UPDATE boards SET document = id;
  CREATE UNIQUE INDEX boards_by_recovery ON boards (recovery_hash);

  CREATE TABLE seasons (
    document TEXT PRIMARY KEY, board TEXT NOT NULL, season INTEGER NOT NULL,
    opened_at INTEGER NOT NULL, closed_at INTEGER, UNIQUE (board, season)
  ) STRICT;
  INSERT INTO seasons (document, board, season, opened_at) SELECT id, id, 1, created_at FROM boards;

  ALTER TABLE links ADD COLUMN max_uses INTEGER;
  ALTER TABLE links ADD COLUMN uses INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE links ADD COLUMN member_id TEXT;
  ALTER TABLE links ADD COLUMN gig TEXT;

  ALTER TABLE devices ADD COLUMN name TEXT NOT NULL DEFAULT '';
  ALTER TABLE devices ADD COLUMN last_seen_at INTEGER;
  ALTER TABLE devices ADD COLUMN revoked_at INTEGER;
  ALTER TABLE devices ADD COLUMN expires_at INTEGER;
  ALTER TABLE devices ADD COLUMN link TEXT;
  ALTER TABLE devices ADD COLUMN gig TEXT;
  ALTER TABLE devices ADD COLUMN confirmed INTEGER NOT NULL DEFAULT 0;
  CREATE INDEX devices_of_board ON devices (board);

  CREATE TABLE private_values (
    board TEXT NOT NULL, member TEXT NOT NULL, key TEXT NOT NULL, value TEXT NOT NULL, at INTEGER NOT NULL,
    PRIMARY KEY (board, member, key)
  ) STRICT, WITHOUT ROWID;

  DROP INDEX updates_of_board;
  ALTER TABLE updates RENAME COLUMN board TO document;
  CREATE INDEX updates_of_document ON updates (document);
  CREATE TABLE archive (
    document TEXT NOT NULL, seq INTEGER NOT NULL, device TEXT NOT NULL, member TEXT,
    at INTEGER NOT NULL, bytes BLOB NOT NULL, PRIMARY KEY (document, seq)
  ) STRICT, WITHOUT ROWID;
  CREATE TABLE snapshots (
    document TEXT NOT NULL, up_to INTEGER NOT NULL, at INTEGER NOT NULL, schema INTEGER NOT NULL,
    state_vector BLOB NOT NULL, bytes BLOB NOT NULL, sum TEXT NOT NULL, PRIMARY KEY (document, up_to)
  ) STRICT;
  `,
];

/** Version of the tables that this program writes. */
export const TABLES_VERSION = STEPS.length;

/** Brings the tables of an empty or older file up to date; refuses a file that a newer version has written. */
export const prepareTables = (db: Database): void => {
  const version = Number(db.pragma("user_version", { simple: true }));
  if (version > TABLES_VERSION)
    throw new StorageUnavailable(
      "The data folder was written by a newer Tightrow. Start that version instead.",
    );
  if (version === TABLES_VERSION) return;
  db.transaction(() => {
    for (const step of STEPS.slice(version)) db.exec(step);
    db.pragma(`user_version = ${TABLES_VERSION}`);
  })();
};
