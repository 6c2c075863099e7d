import { open } from "node:fs/promises";
import { join } from "node:path";
import Database from "better-sqlite3";
import { StorageUnavailable } from "./storage.ts";

/** Name of the database in the data folder; its write-ahead log stands beside it. */
export const DATABASE_FILE = "tightrow.db";

/** Two servers on one folder would each answer from their own memory. The system lets go when the process dies. */
export const takeLock = (folder: string): Database.Database => {
  const lock = new Database(join(folder, "tightrow.lock"), { timeout: 0 });
  try {
    lock.exec("BEGIN EXCLUSIVE");
    return lock;
  } catch (error) {
    lock.close();
    if (error instanceof Database.SqliteError && error.code === "SQLITE_BUSY")
      throw new StorageUnavailable(
        `The data folder ${folder} is in use by another Tightrow that is running.`,
      );
    throw error;
  }
};

/** A new file survives a power cut only once its folder is synced too; not every system can. */
export const syncFolder = async (folder: string): Promise<void> => {
  try {
    const handle = await open(folder, "r");
    await handle.sync().finally(() => handle.close());
  } catch {
    // Windows cannot open folders; NTFS journals its own entries.
  }
};
