import { randomBytes } from "node:crypto";
import { constants, mkdirSync, rmSync } from "node:fs";
import { open, rename } from "node:fs/promises";
import { dirname } from "node:path";
import Database from "better-sqlite3";

/** Pages copied at a time: the server goes on in between. */
const PAGES_AT_ONCE = 200;

export interface BackupOptions {
  /**
   * True = all pages in one go. For a process that copies while another one writes: SQLite begins anew after each
   * foreign write, so a copy in pieces might never end. It blocks nobody else.
   */
  readonly atOnce?: boolean;
}

/**
 * Copies a database that may be in use to one file that is whole and needs nothing beside it. The file appears under
 * its name only when it is complete, checked and on the disk. Rejects with the system's error; then there is no file.
 */
export const writeBackup = async (
  db: Database.Database,
  file: string,
  { atOnce = false }: BackupOptions = {},
): Promise<void> => {
  mkdirSync(dirname(file), { recursive: true, mode: 0o700 });
  const half = `${file}.${randomBytes(4).toString("hex")}.half`;
  try {
    const pages = atOnce ? Number.MAX_SAFE_INTEGER : PAGES_AT_ONCE;
    await db.backup(half, { progress: () => Math.min(pages, 0x7fff_ffff) });
    seal(half);
    await syncFile(half);
    await rename(half, file);
  } catch (error) {
    for (const end of ["", "-journal", "-wal", "-shm"]) rmSync(half + end, { force: true });
    throw error;
  }
};

/** Checks a copy and takes it out of write-ahead mode, so that it is one file. */
const seal = (file: string): void => {
  const copy = new Database(file);
  try {
    copy.pragma("journal_mode = DELETE");
    requireWhole(copy);
  } finally {
    copy.close();
  }
};

/** Throws unless SQLite finds nothing wrong: https://sqlite.org/pragma.html#pragma_integrity_check */
export const requireWhole = (db: Database.Database): void => {
  const verdict = db.pragma("integrity_check(1)", { simple: true });
  if (verdict !== "ok") throw new Error(`The file is damaged: ${String(verdict)}`);
};

export const syncFile = async (file: string): Promise<void> => {
  const handle = await open(file, constants.O_RDWR);
  await handle.sync().finally(() => handle.close());
};
