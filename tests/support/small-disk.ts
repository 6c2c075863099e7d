import { execFileSync } from "node:child_process";
import { chmodSync, mkdtempSync, rmSync, statfsSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { onTestFinished } from "vitest";
import { openSqliteStorage, type SqliteStorage } from "#server/storage/sqlite-storage.ts";

/**
 * A real SQLite storage on a disk that can be filled up and emptied again: a file system of its own where this user may
 * mount one, else SQLite's own bound of pages, which fails with the same error.
 */
export interface SmallDisk {
  readonly storage: SqliteStorage;
  fill(): void;
  empty(): Promise<void>;
}

const MIB = 1024 * 1024;

const newFolder = (): string => {
  const folder = mkdtempSync(join(tmpdir(), "tightrow-disk-"));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
};

/** Mounts a file system in memory; false where this user may not. */
const mount = (folder: string, options: string): boolean => {
  try {
    execFileSync("mount", ["-t", "tmpfs", "-o", options, "tmpfs", folder], { stdio: "ignore" });
  } catch {
    return false;
  }
  onTestFinished(() => void execFileSync("umount", [folder], { stdio: "ignore" }));
  return true;
};

export const openSmallDisk = async (): Promise<SmallDisk> => {
  const folder = newFolder();
  const mounted = mount(folder, "size=4m");
  const storage = await openSqliteStorage(folder, mounted ? {} : { maxBytes: MIB });
  onTestFinished(() => storage.close());
  if (mounted) {
    const filler = join(folder, "filler");
    return {
      storage,
      fill() {
        const { bavail, bsize } = statfsSync(folder);
        writeFileSync(filler, new Uint8Array(bavail * bsize));
      },
      empty: async () => rmSync(filler),
    };
  }
  const row = { document: "filler", device: "d", member: null, at: 1, bytes: new Uint8Array(2000).fill(7) };
  return {
    storage,
    fill() {
      for (;;) {
        try {
          storage.append(row);
        } catch {
          return;
        }
      }
    },
    empty: () => storage.forget("filler"),
  };
};

/** A folder into which nobody may write, root included. */
export const readOnlyFolder = (): string => {
  const folder = newFolder();
  if (!mount(folder, "ro,size=1m")) chmodSync(folder, 0o555);
  return folder;
};
