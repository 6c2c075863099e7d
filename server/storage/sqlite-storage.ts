import { accessSync, constants, mkdirSync } from "node:fs";
import { open } from "node:fs/promises";
import { join } from "node:path";
import Database from "better-sqlite3";
import { writeBackup } from "../upkeep/backup-file.ts";
import { DATABASE_FILE, syncFolder, takeLock } from "./data-folder.ts";
import { createGroupFlush } from "./group-flush.ts";
import { sqliteBoards } from "./sqlite-boards.ts";
import { sqliteLog } from "./sqlite-log.ts";
import { sqliteMembers } from "./sqlite-members.ts";
import { prepareTables } from "./sqlite-schema.ts";
import { guarded, refusal, type Write } from "./sqlite-write.ts";
import { type Storage, StorageRefusal, StorageUnavailable } from "./storage.ts";

/** Pages of the write-ahead log after which SQLite folds it back: fewer, longer pauses than its default of 1,000. */
const CHECKPOINT_PAGES = 4000;

export interface SqliteOptions {
  /** Most bytes the database file may take; 0 = as many as the disk has. */
  readonly maxBytes?: number;
}

export interface SqliteStorage extends Storage {
  /** Writes a whole copy of everything to a new file, while the storage goes on. Rejects with the system's error. */
  backup(file: string): Promise<void>;
}

/**
 * The embedded storage: one SQLite file in `folder`, which is made when it is missing.
 * Rows are committed without waiting for the disk (`synchronous = NORMAL` in WAL mode: safe against a killed process,
 * https://sqlite.org/pragma.html#pragma_synchronous); a flush then syncs the write-ahead log off the main thread, once
 * for all who wait. Rejects with StorageUnavailable when the folder cannot be used.
 */
export const openSqliteStorage = async (
  folder: string,
  options: SqliteOptions = {},
): Promise<SqliteStorage> => {
  const { db, lock } = openFiles(folder, options);
  const log = await open(join(folder, `${DATABASE_FILE}-wal`), "r+");
  await syncFolder(folder);
  let closed = false;
  /** After a failed sync the kernel may have dropped the pages: only a checkpoint writes them anew. */
  let mustRewrite = false;

  const sync = createGroupFlush(async () => {
    try {
      if (mustRewrite) rewriteLog(db);
      await log.datasync();
      mustRewrite = false;
    } catch (error) {
      mustRewrite = true;
      throw refusal(error);
    }
  });

  const flush = (): Promise<void> =>
    closed ? Promise.reject(new StorageRefusal("The storage is closed")) : sync();
  const write: Write = async (run) => {
    const value = guarded(run);
    await flush();
    return value;
  };

  return {
    ...sqliteLog(db, guarded, write),
    ...sqliteBoards(db, guarded, write),
    ...sqliteMembers(db, guarded, write),
    flush,
    size: () => guarded(() => pages(db, "page_count") * pages(db, "page_size")),
    backup: (file) => writeBackup(db, file),
    async close() {
      if (closed) return;
      closed = true;
      await sync().catch(() => undefined);
      await log.close();
      db.close();
      lock.close();
    },
  };
};

/** Writes everything in the log into the database, and begins the log anew. Throws when somebody is in the way. */
const rewriteLog = (db: Database.Database): void => {
  const [result] = db.pragma("wal_checkpoint(TRUNCATE)") as { readonly busy: number }[];
  if (result?.busy !== 0) throw new StorageRefusal("The log is in use and could not be written anew");
};

const pages = (db: Database.Database, pragma: "page_count" | "page_size"): number =>
  Number(db.pragma(pragma, { simple: true }));

const openFiles = (folder: string, { maxBytes = 0 }: SqliteOptions) => {
  try {
    mkdirSync(folder, { recursive: true });
    const lock = takeLock(folder);
    const db = new Database(join(folder, DATABASE_FILE));
    db.pragma("journal_mode = WAL");
    db.pragma("synchronous = NORMAL");
    db.pragma(`wal_autocheckpoint = ${CHECKPOINT_PAGES}`);
    prepareTables(db);
    if (maxBytes > 0) {
      const pageBytes = Number(db.pragma("page_size", { simple: true }));
      db.pragma(`max_page_count = ${Math.max(1, Math.floor(maxBytes / pageBytes))}`);
    }
    // The log file must exist before it is opened for syncing; a write makes it.
    db.pragma(`user_version = ${db.pragma("user_version", { simple: true })}`);
    return { db, lock };
  } catch (error) {
    if (error instanceof StorageUnavailable) throw error;
    throw new StorageUnavailable(`The data folder ${folder} cannot be used: ${whyUnusable(folder, error)}.`, {
      cause: error,
    });
  }
};

/** In words where the reason is one that people meet; else the system's own. */
const whyUnusable = (folder: string, error: unknown): string => {
  try {
    accessSync(folder, constants.W_OK);
  } catch (denied) {
    const code = denied instanceof Error && "code" in denied ? denied.code : "";
    if (code === "EROFS" || code === "EACCES")
      return "nothing may be written there. Allow it, or set TIGHTROW_DATA to another folder";
  }
  if (error instanceof Database.SqliteError && error.code === "SQLITE_FULL")
    return "its disk is full. Make room, or set TIGHTROW_DATA to another folder";
  return error instanceof Error ? error.message : String(error);
};
