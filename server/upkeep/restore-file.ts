import { copyFileSync, existsSync, linkSync, mkdirSync, renameSync, rmSync } from "node:fs";
import { basename, join } from "node:path";
import Database from "better-sqlite3";
import { err, ok, type Result } from "#shared/lib/result.ts";
import { whyOf } from "../log.ts";
import { DATABASE_FILE, syncFolder, takeLock } from "../storage/data-folder.ts";
import { TABLES_VERSION } from "../storage/sqlite-schema.ts";
import { StorageUnavailable } from "../storage/storage.ts";
import { requireWhole, syncFile } from "./backup-file.ts";

export interface Restored {
  /** Where the data that was there before is now; null = there was none. */
  readonly setAside: string | null;
}

/**
 * Puts a backup in the place of the data folder's database, which is set aside and not deleted. Refused with a sentence
 * while a server runs on the folder, and for a file that is damaged, no backup, or of a newer version; then nothing was
 * changed. `stamp` names the folder for what is set aside.
 */
export const restoreBackup = async (
  file: string,
  folder: string,
  stamp: string,
): Promise<Result<Restored>> => {
  const fault = whyNotUsable(file);
  if (fault !== null) return err(fault);
  mkdirSync(folder, { recursive: true });
  let lock: Database.Database;
  try {
    lock = takeLock(folder);
  } catch (error) {
    if (error instanceof StorageUnavailable) return err(`${error.message} Stop it first, then restore.`);
    throw error;
  }
  try {
    // Copied beside its place first: a full disk must not be found out after the old file has gone.
    const fresh = join(folder, RESTORING);
    copyFileSync(file, fresh);
    await syncFile(fresh);
    const setAside = keepAside(folder, stamp);
    // A log that is left over would be taken for the new file's.
    for (const end of ["-wal", "-shm"]) rmSync(join(folder, DATABASE_FILE + end), { force: true });
    renameSync(fresh, join(folder, DATABASE_FILE));
    await syncFolder(folder);
    return ok({ setAside });
  } catch (error) {
    rmSync(join(folder, RESTORING), { force: true });
    return err(`The backup could not be put in place: ${whyOf(error)}.`);
  } finally {
    lock.close();
  }
};

const RESTORING = `${DATABASE_FILE}.restoring`;

/** Gives the files that are there a second name in a folder of their own. */
const keepAside = (folder: string, stamp: string): string | null => {
  const database = join(folder, DATABASE_FILE);
  if (!existsSync(database)) return null;
  foldLog(database);
  const aside = join(folder, `set-aside-${stamp}`);
  mkdirSync(aside, { mode: 0o700 });
  for (const end of ["", "-wal"]) {
    if (!existsSync(database + end)) continue;
    const to = join(aside, DATABASE_FILE + end);
    try {
      linkSync(database + end, to);
    } catch {
      // Some file systems know no second names.
      copyFileSync(database + end, to);
    }
  }
  return aside;
};

/** So that what is set aside is one file. A damaged database stays as it is. */
const foldLog = (database: string): void => {
  try {
    const db = new Database(database);
    db.pragma("wal_checkpoint(TRUNCATE)");
    db.close();
  } catch {
    // Kept with its log.
  }
};

const whyNotUsable = (file: string): string | null => {
  if (!existsSync(file)) return `There is no file ${file}.`;
  let db: Database.Database | null = null;
  try {
    db = new Database(file, { readonly: true, fileMustExist: true });
    const version = Number(db.pragma("user_version", { simple: true }));
    if (version === 0) return `${basename(file)} is not a backup of Tightrow.`;
    if (version > TABLES_VERSION)
      return `${basename(file)} was written by a newer Tightrow. Install that version, then restore.`;
    requireWhole(db);
    return null;
  } catch (error) {
    return `${basename(file)} cannot be used: ${whyOf(error)}.`;
  } finally {
    db?.close();
  }
};
