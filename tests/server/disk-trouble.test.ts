import { copyFile, mkdtemp, open, readFile, rm, stat, truncate, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { expect, onTestFinished, test, vi } from "vitest";
import { openSqliteStorage } from "#server/storage/sqlite-storage.ts";
import { StorageRefusal } from "#server/storage/storage.ts";
import { buildServer, spawnServer } from "#tests/support/built-server.ts";
import { openAccess } from "#tests/support/open-access.ts";
import { openSmallDisk, readOnlyFolder } from "#tests/support/small-disk.ts";
import { connectStock } from "#tests/support/stock-client.ts";
import { startTestServer } from "#tests/support/test-server.ts";

const newFolder = async (): Promise<string> => {
  const folder = await mkdtemp(join(tmpdir(), "tightrow-disk-"));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  return folder;
};

test("[SRV-9] a disk that fills up: no acknowledgement, the device is told, and all is saved once there is room", async () => {
  const disk = await openSmallDisk();
  const server = await startTestServer({ storage: disk.storage, access: () => openAccess });
  const phone = connectStock(server.syncUrl, "fuses", "member");
  await phone.synced;
  phone.provider.on("sync", () => phone.askDurable([phone.doc.clientID]));
  phone.set("intro", "noticed");
  await phone.saved();
  disk.fill();
  const told = phone.closed();
  // Longer than whatever is left on pages that are in use already.
  phone.set("outro", "x".repeat(50_000));
  expect(await told).toBe(4507);
  expect(phone.ownDurable()).toBe(1);
  expect((await fetch(`${server.origin}/healthz`)).status).toBe(503);
  await disk.empty();
  await phone.saved();
  expect((await fetch(`${server.origin}/healthz`)).status).toBe(200);
  const rows = await disk.storage.load("fuses");
  expect(rows.some(({ bytes }) => bytes.length > 50_000)).toBe(true);
});

test("[SRV-9] a folding for which there is no room leaves the rows where they are", async () => {
  const disk = await openSmallDisk();
  const { storage } = disk;
  const row = { document: "fuses", device: "d", member: null, at: 1, bytes: new Uint8Array(1000).fill(3) };
  const places = Array.from({ length: 30 }, () => storage.append(row));
  disk.fill();
  const bytes = new Uint8Array(60_000).fill(5);
  const snapshot = { upTo: places.at(-1) ?? 0, at: 1, schema: 1, stateVector: Uint8Array.of(0), bytes };
  await expect(storage.compact("fuses", snapshot)).rejects.toThrow();
  expect((await storage.load("fuses")).map(({ seq }) => seq)).toEqual(places);
  await disk.empty();
  await storage.compact("fuses", snapshot);
  expect(await storage.usage("fuses")).toMatchObject({ rows: 0, archivedRows: 30 });
});

test("[SRV-9] a data folder nobody may write into is one sentence at the start", async () => {
  const program = await buildServer();
  onTestFinished(() => rm(dirname(program), { recursive: true, force: true }));
  const folder = readOnlyFolder();
  const server = spawnServer(program, { TIGHTROW_DATA: folder });
  expect((await server.ended).code).toBe(1);
  expect(server.err().trim()).toBe(
    `The data folder ${folder} cannot be used: nothing may be written there. Allow it, or set TIGHTROW_DATA to another folder.`,
  );
});

test("[SRV-9] a sync that fails acknowledges nothing, and the next writes everything anew before it answers", async () => {
  const folder = await newFolder();
  const storage = await openSqliteStorage(folder);
  onTestFinished(() => storage.close());
  const handle = await open(join(folder, "tightrow.db"), "r");
  const datasync = vi.spyOn(Object.getPrototypeOf(handle), "datasync");
  onTestFinished(() => datasync.mockRestore());
  await handle.close();
  storage.append({ document: "fuses", device: "d", member: null, at: 1, bytes: Uint8Array.of(4, 2) });
  datasync.mockRejectedValueOnce(new Error("EIO: i/o error, fdatasync"));
  await expect(storage.flush()).rejects.toThrow(StorageRefusal);
  const log = join(folder, "tightrow.db-wal");
  expect((await stat(log)).size).toBeGreaterThan(0);
  await storage.flush();
  // Pages whose sync failed may be lost although a later sync succeeds (fsync(2), "EIO"): they are in the database now.
  expect((await stat(log)).size).toBe(0);
  expect(await storage.load("fuses")).toHaveLength(1);
});

/** Copies a storage's files as a crash would leave them, with its write-ahead log changed. */
const crashedCopy = async (
  folder: string,
  change: (log: string, bytes: number) => Promise<void>,
): Promise<string> => {
  const copy = await newFolder();
  for (const file of ["tightrow.db", "tightrow.db-wal"]) await copyFile(join(folder, file), join(copy, file));
  const log = join(copy, "tightrow.db-wal");
  await change(log, (await readFile(log)).length);
  return copy;
};

const writtenRows = async () => {
  const folder = await newFolder();
  const storage = await openSqliteStorage(folder);
  onTestFinished(() => storage.close());
  const bytes = (i: number) => new Uint8Array(700).fill(i);
  for (let i = 0; i < 40; i++)
    storage.append({ document: "fuses", device: "d", member: null, at: i, bytes: bytes(i) });
  await storage.flush();
  return folder;
};

/** Opens a copy; answers which rows are there, after it has shown that it takes another. */
const rowsIn = async (folder: string): Promise<number[]> => {
  const storage = await openSqliteStorage(folder);
  onTestFinished(() => storage.close());
  const rows = await storage.load("fuses");
  storage.append({ document: "fuses", device: "d", member: null, at: 99, bytes: Uint8Array.of(1) });
  await storage.flush();
  expect(await storage.load("fuses")).toHaveLength(rows.length + 1);
  await storage.close();
  return rows.map(({ at }) => at);
};

const isBeginning = (rows: readonly number[]): boolean => rows.every((at, i) => at === i);

test("[SRV-9] a write-ahead log cut short anywhere leaves a database that starts, with the rows up to the cut", async () => {
  const folder = await writtenRows();
  const counts: number[] = [];
  for (const share of [0, 0.1, 0.37, 0.5, 0.731, 0.9, 0.999, 1]) {
    const copy = await crashedCopy(folder, (log, bytes) => truncate(log, Math.floor(bytes * share)));
    const rows = await rowsIn(copy);
    expect(isBeginning(rows)).toBe(true);
    counts.push(rows.length);
  }
  expect(counts).toEqual([...counts].sort((a, b) => a - b));
  expect(counts.at(-1)).toBe(40);
  expect(counts[3]).toBeGreaterThan(0);
});

test("[SRV-9] a write that a crash left half-done is left out, and what was before it is there", async () => {
  const folder = await writtenRows();
  for (const share of [0.3, 0.6, 0.95]) {
    const copy = await crashedCopy(folder, async (log, length) => {
      const bytes = await readFile(log);
      // From here on the disk holds what it held before: nothing that fits.
      bytes.fill(0xa5, Math.floor(length * share));
      await writeFile(log, bytes);
    });
    const rows = await rowsIn(copy);
    expect([isBeginning(rows), rows.length < 40]).toEqual([true, true]);
  }
});
