import type { Database } from "better-sqlite3";
import { StorageUnavailable } from "./storage.ts";

/** Version of the tables below, kept in `user_version`. */
const SCHEMA_VERSION = 1;

const TABLES = `
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
`;

/** Makes the tables in an empty file; refuses a file that a newer version has written. */
export const prepareTables = (db: Database): void => {
  const version = db.pragma("user_version", { simple: true });
  if (version === SCHEMA_VERSION) return;
  if (version !== 0)
    throw new StorageUnavailable(
      "The data folder was written by a newer Tightrow. Start that version instead.",
    );
  db.transaction(() => {
    db.exec(TABLES);
    db.pragma(`user_version = ${SCHEMA_VERSION}`);
  })();
};
