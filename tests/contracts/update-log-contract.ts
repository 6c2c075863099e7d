import { expect, test } from "vitest";
import { type Storage, StorageRefusal } from "#server/storage/storage.ts";
import { update } from "./records.ts";

export const updateLogContract = (open: () => Promise<Storage>): void => {
  test("a board's updates come back in the order they were appended, with who and when", async () => {
    const storage = await open();
    storage.append(update("fuses", 1));
    storage.append({ ...update("fuses", 2, 3), device: "priya-tablet", member: null, at: 5 });
    await storage.flush();
    const rows = await storage.load("fuses");
    expect(rows.map(({ bytes }) => [...bytes])).toEqual([[1], [2, 3]]);
    expect(rows.map(({ device: by, member, at }) => [by, member, at])).toEqual([
      ["anneli-phone", "anneli", 1_900_000_000_000],
      ["priya-tablet", null, 5],
    ]);
  });

  test("a row's place in the log is ascending over all boards", async () => {
    const storage = await open();
    const places = [
      storage.append(update("a", 1)),
      storage.append(update("b", 1)),
      storage.append(update("a", 2)),
    ];
    expect(places).toEqual([...places].sort((x, y) => x - y));
    expect(new Set(places).size).toBe(3);
    expect((await storage.load("a")).map(({ seq }) => seq)).toEqual([places[0], places[2]]);
  });

  test("boards do not see each other's updates, and an unknown board is empty", async () => {
    const storage = await open();
    storage.append(update("fuses", 1));
    expect(await storage.load("other")).toEqual([]);
  });

  test("an update is kept as it was when it was appended", async () => {
    const storage = await open();
    const bytes = Uint8Array.from([7, 7, 7]);
    storage.append({ ...update("fuses"), bytes });
    bytes.fill(0);
    const [row] = await storage.load("fuses");
    expect([...(row?.bytes ?? [])]).toEqual([7, 7, 7]);
  });

  test("an empty and a megabyte-long update both survive", async () => {
    const storage = await open();
    const long = new Uint8Array(1_048_576).map((_, i) => i % 251);
    storage.append(update("fuses"));
    storage.append({ ...update("fuses"), bytes: long });
    const rows = await storage.load("fuses");
    expect(rows[0]?.bytes.length).toBe(0);
    expect(Buffer.compare(Buffer.from(rows[1]?.bytes ?? []), Buffer.from(long))).toBe(0);
  });

  test("many can wait for a flush at once", async () => {
    const storage = await open();
    const flushes = Array.from({ length: 50 }, (_, i) => {
      storage.append(update("fuses", i));
      return storage.flush();
    });
    await expect(Promise.all(flushes)).resolves.toHaveLength(50);
    expect(await storage.load("fuses")).toHaveLength(50);
  });

  test("a closed storage refuses instead of losing", async () => {
    const storage = await open();
    await storage.close();
    expect(() => storage.append(update("fuses", 1))).toThrow(StorageRefusal);
    await expect(storage.flush()).rejects.toThrow(StorageRefusal);
  });
};
