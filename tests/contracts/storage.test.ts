import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import Database from "better-sqlite3";
import { describe, expect, onTestFinished, test } from "vitest";
import { createMemoryStorage } from "#server/storage/memory-storage.ts";
import { openSqliteStorage } from "#server/storage/sqlite-storage.ts";
import { type Storage, StorageRefusal, StorageUnavailable } from "#server/storage/storage.ts";
import { board } from "./records.ts";
import { storageContract } from "./storage-contract.ts";

const newFolder = async (): Promise<string> => {
  const folder = await mkdtemp(join(tmpdir(), "tightrow-storage-"));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  return folder;
};

const openIn = async (folder: string, maxBytes = 0): Promise<Storage> => {
  const storage = await openSqliteStorage(folder, { maxBytes });
  onTestFinished(() => storage.close());
  return storage;
};

const update = (bytes: Uint8Array) => ({ document: "fuses", device: "d", member: null, at: 1, bytes });

describe("[SRV-1] memory storage", () => storageContract(async () => createMemoryStorage()));

describe("SQLite storage", () => {
  storageContract(async () => openIn(await newFolder()));

  test("what was flushed is there when the folder is opened again", async () => {
    const folder = await newFolder();
    const first = await openIn(folder);
    first.append(update(Uint8Array.from([4, 2])));
    await first.close();
    const rows = await (await openIn(folder)).load("fuses");
    expect(rows.map(({ bytes }) => [...bytes])).toEqual([[4, 2]]);
  });

  test("a second server on the same folder is told so in one sentence", async () => {
    const folder = await newFolder();
    await openIn(folder);
    await expect(openIn(folder)).rejects.toThrow(/in use by another Tightrow/);
  });

  test("a path that is no folder is refused in one sentence", async () => {
    const file = join(await newFolder(), "file");
    await writeFile(file, "");
    const opening = openIn(join(file, "data"));
    await expect(opening).rejects.toThrow(StorageUnavailable);
    await expect(opening).rejects.toThrow(/cannot be used/);
  });

  test("a folder of a newer version is left alone", async () => {
    const folder = await newFolder();
    await (await openIn(folder)).close();
    const db = new Database(join(folder, "tightrow.db"));
    db.pragma("user_version = 99");
    db.close();
    await expect(openIn(folder)).rejects.toThrow(/newer Tightrow/);
  });

  test("a full database refuses the row, keeps the others, and takes rows again when there is room", async () => {
    const folder = await newFolder();
    const small = await openIn(folder, 200_000);
    const row = new Uint8Array(20_000).fill(9);
    let stored = 0;
    // SQLite answers SQLITE_FULL here, the same error as for a full disk (https://sqlite.org/rescode.html#full).
    expect(() => {
      for (; stored < 100; stored++) small.append(update(row));
    }).toThrow(StorageRefusal);
    await small.flush();
    expect(stored).toBeGreaterThan(2);
    expect(await small.load("fuses")).toHaveLength(stored);
    await small.close();

    const large = await openIn(folder);
    large.append(update(row));
    await large.flush();
    expect(await large.load("fuses")).toHaveLength(stored + 1);
  });

  test("commits do not wait for the disk, and the log is the write-ahead log", async () => {
    const folder = await newFolder();
    await openIn(folder);
    // https://sqlite.org/pragma.html: journal_mode is kept in the file.
    const db = new Database(join(folder, "tightrow.db"), { readonly: true });
    expect(db.pragma("journal_mode", { simple: true })).toBe("wal");
    db.close();
  });

  test("a damaged snapshot is passed over for the one before it and the archive", async () => {
    const folder = await newFolder();
    const storage = await openIn(folder);
    const row = (byte: number) => storage.append(update(Uint8Array.of(byte)));
    const facts = { at: 1, schema: 1, stateVector: Uint8Array.of(0) };
    const [first, second] = [row(1), row(2)];
    await storage.compact("fuses", { ...facts, upTo: first, bytes: Uint8Array.of(101) });
    await storage.compact("fuses", { ...facts, upTo: second, bytes: Uint8Array.of(102) });
    row(3);
    const bytesOf = async () => (await storage.load("fuses")).map(({ bytes }) => [...bytes]);
    expect(await bytesOf()).toEqual([[102], [3]]);
    const db = new Database(join(folder, "tightrow.db"));
    const damage = db.prepare("UPDATE snapshots SET bytes = x'ff' WHERE up_to = ?");
    damage.run(second);
    expect(await bytesOf()).toEqual([[101], [2], [3]]);
    damage.run(first);
    expect(await bytesOf()).toEqual([[1], [2], [3]]);
    db.close();
  });

  test("a full database refuses a snapshot and keeps every row where it was", async () => {
    const storage = await openIn(await newFolder(), 200_000);
    const upTo = storage.append(update(Uint8Array.of(1)));
    const bytes = new Uint8Array(400_000).fill(7);
    const compacting = storage.compact("fuses", {
      upTo,
      at: 1,
      schema: 1,
      stateVector: Uint8Array.of(0),
      bytes,
    });
    await expect(compacting).rejects.toThrow(StorageRefusal);
    expect((await storage.load("fuses")).map(({ bytes: kept }) => [...kept])).toEqual([[1]]);
    expect(await storage.usage("fuses")).toEqual({ bytes: 1, rows: 1, archivedRows: 0, archivedBytes: 0 });
  });

  test("a season that cannot be stored whole leaves the one before it open", async () => {
    const storage = await openIn(await newFolder(), 200_000);
    await storage.addBoard(board("fuses"));
    storage.append(update(Uint8Array.of(1)));
    const first = { ...update(new Uint8Array(400_000).fill(7)), document: "fuses-2" };
    await expect(storage.openSeason("fuses", "fuses", first, true)).rejects.toThrow(StorageRefusal);
    expect(await storage.board("fuses")).toMatchObject({ document: "fuses", season: 1 });
    expect(await storage.load("fuses")).toHaveLength(1);
    expect(await storage.seasons("fuses")).toHaveLength(1);
  });
});
