import { expect, test } from "vitest";
import { type Storage, StorageRefusal } from "#server/storage/storage.ts";
import type { StoredUpdate } from "#server/storage/update-log.ts";
import { snapshot, update } from "./records.ts";

const bytesOf = (rows: readonly StoredUpdate[]): number[][] => rows.map(({ bytes }) => [...bytes]);

/** Snapshots, the archive behind them, history and retention. */
export const compactionContract = (open: () => Promise<Storage>): void => {
  /** Appends rows of one byte each, at moment = byte; answers their places. */
  const append = (storage: Storage, document: string, ...bytes: number[]): number[] =>
    bytes.map((byte) => storage.append({ ...update(document, byte), at: byte }));

  test("rows up to a snapshot's place move behind it, every later row stays", async () => {
    const storage = await open();
    const [, second = 0] = append(storage, "fuses", 1, 2);
    append(storage, "other", 9);
    append(storage, "fuses", 3, 4);
    await storage.compact("fuses", snapshot(second, 200, 50));
    const rows = await storage.load("fuses");
    expect(bytesOf(rows)).toEqual([[200], [3], [4]]);
    expect(rows[0]).toMatchObject({ seq: second, at: 50, device: "server", member: null });
    expect(rows.map((row) => row.snapshot?.schema ?? null)).toEqual([3, null, null]);
    expect([...(rows[0]?.snapshot?.stateVector ?? [])]).toEqual([0, 200]);
    expect(bytesOf(await storage.load("other"))).toEqual([[9]]);
    expect(await storage.usage("fuses")).toEqual({ bytes: 3, rows: 2, archivedRows: 2, archivedBytes: 2 });
  });

  test("rows appended after a snapshot keep ascending, and a second snapshot takes them in", async () => {
    const storage = await open();
    const [first = 0] = append(storage, "fuses", 1);
    await storage.compact("fuses", snapshot(first, 200));
    const [second = 0, third = 0] = append(storage, "fuses", 2, 3);
    expect(second).toBeGreaterThan(first);
    await storage.compact("fuses", snapshot(second, 201));
    expect(bytesOf(await storage.load("fuses"))).toEqual([[201], [3]]);
    expect(third).toBeGreaterThan(second);
    expect(await storage.usage("fuses")).toEqual({ bytes: 2, rows: 1, archivedRows: 2, archivedBytes: 2 });
  });

  test("history has every row once, snapshots left out, in any range", async () => {
    const storage = await open();
    const places = append(storage, "fuses", 1, 2, 3, 4, 5);
    await storage.compact("fuses", snapshot(places[2] ?? 0, 200));
    append(storage, "other", 9);
    const history = async (range = {}) => bytesOf(await storage.history("fuses", range)).flat();
    expect(await history()).toEqual([1, 2, 3, 4, 5]);
    expect(await history({ after: places[1] })).toEqual([3, 4, 5]);
    expect(await history({ before: places[3] })).toEqual([1, 2, 3]);
    expect(await history({ before: places[3], limit: 2 })).toEqual([2, 3]);
    expect(await history({ after: places[0], before: places[4], limit: 9 })).toEqual([2, 3, 4]);
    expect(await history({ limit: 0 })).toEqual([]);
    expect((await storage.history("fuses", {})).every((row) => row.snapshot === null)).toBe(true);
    expect(await storage.history("nothing", {})).toEqual([]);
  });

  test("the document can be loaded as it was after any row", async () => {
    const storage = await open();
    const places = append(storage, "fuses", 1, 2, 3, 4);
    await storage.compact("fuses", snapshot(places[1] ?? 0, 200));
    const at = async (place: number | undefined) => bytesOf(await storage.loadAt("fuses", place ?? 0)).flat();
    expect(await at(places[0])).toEqual([1]);
    expect(await at(places[1])).toEqual([200]);
    expect(await at(places[2])).toEqual([200, 3]);
    expect(await at(places[3])).toEqual([200, 3, 4]);
    expect(await storage.loadAt("fuses", 0)).toEqual([]);
  });

  test("the archive is pruned only behind a kept snapshot that has another after it", async () => {
    const storage = await open();
    const places = append(storage, "fuses", 1, 2, 3, 4, 5, 6);
    append(storage, "other", 1, 2);
    expect(await storage.prune(100)).toBe(0);
    await storage.compact("fuses", snapshot(places[1] ?? 0, 200, 10));
    // A lone snapshot that breaks must still have its rows to be read again from.
    expect(await storage.prune(100)).toBe(0);
    await storage.compact("fuses", snapshot(places[3] ?? 0, 201, 11));
    expect(await storage.prune(2)).toBe(1);
    expect(await storage.prune(100)).toBe(1);
    expect(bytesOf(await storage.load("fuses"))).toEqual([[201], [5], [6]]);
    expect(bytesOf(await storage.history("fuses", {})).flat()).toEqual([3, 4, 5, 6]);
    expect(bytesOf(await storage.loadAt("fuses", places[2] ?? 0))).toEqual([[200], [3]]);
    expect(bytesOf(await storage.load("other"))).toEqual([[1], [2]]);
  });

  test("a forgotten document is gone with its archive, and others stay", async () => {
    const storage = await open();
    const [place = 0] = append(storage, "fuses", 1, 2);
    append(storage, "other", 9);
    await storage.compact("fuses", snapshot(place, 200));
    await storage.forget("fuses");
    expect([await storage.load("fuses"), await storage.history("fuses", {})]).toEqual([[], []]);
    expect(await storage.usage("fuses")).toEqual({ bytes: 0, rows: 0, archivedRows: 0, archivedBytes: 0 });
    expect(await storage.load("other")).toHaveLength(1);
  });

  test("a snapshot is kept as it was when it was made", async () => {
    const storage = await open();
    const [place = 0] = append(storage, "fuses", 1);
    const made = snapshot(place, 200);
    await storage.compact("fuses", made);
    made.bytes.fill(0);
    made.stateVector.fill(0);
    const [row] = await storage.load("fuses");
    expect([[...(row?.bytes ?? [])], [...(row?.snapshot?.stateVector ?? [])]]).toEqual([[200], [0, 200]]);
  });

  test("a closed storage refuses to compact and to prune", async () => {
    const storage = await open();
    const [place = 0] = append(storage, "fuses", 1);
    await storage.close();
    await expect(storage.compact("fuses", snapshot(place, 200))).rejects.toThrow(StorageRefusal);
    await expect(storage.prune(5)).rejects.toThrow(StorageRefusal);
    await expect(storage.forget("fuses")).rejects.toThrow(StorageRefusal);
  });
};
