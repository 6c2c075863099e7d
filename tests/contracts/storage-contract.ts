import { expect, test } from "vitest";
import type { BoardRecord, DeviceRecord, LinkRecord } from "#server/storage/board-tables.ts";
import { type Storage, StorageRefusal } from "#server/storage/storage.ts";
import type { NewUpdate } from "#server/storage/update-log.ts";

const update = (document: string, ...bytes: number[]): NewUpdate => ({
  document,
  device: "anneli-phone",
  member: "anneli",
  at: 1_900_000_000_000,
  bytes: Uint8Array.from(bytes),
});

const board = (id: string, changes: Partial<BoardRecord> = {}): BoardRecord => ({
  id,
  name: "Six Spare Fuses",
  demo: false,
  createdAt: 1_900_000_000_000,
  retiredAt: null,
  erasedAt: null,
  document: id,
  season: 1,
  recoveryHash: null,
  ...changes,
});

const link = (id: string, changes: Partial<LinkRecord> = {}): LinkRecord => ({
  id,
  board: "fuses",
  role: "member",
  secretHash: `hash-of-${id}`,
  label: "For the horns",
  createdAt: 1_900_000_000_000,
  expiresAt: null,
  revokedAt: null,
  maxUses: null,
  uses: 0,
  memberId: null,
  gig: null,
  ...changes,
});

const device = (id: string, changes: Partial<DeviceRecord> = {}): DeviceRecord => ({
  id,
  board: "fuses",
  role: "leader",
  tokenHash: `hash-of-${id}`,
  memberId: null,
  createdAt: 1_900_000_000_000,
  name: "Phone",
  lastSeenAt: null,
  revokedAt: null,
  expiresAt: null,
  link: null,
  gig: null,
  confirmed: false,
  ...changes,
});

/** What every storage must do; `open` answers an empty one that is closed by the caller of the suite. */
export const storageContract = (open: () => Promise<Storage>): void => {
  logContract(open);
  recordContract(open);
};

const logContract = (open: () => Promise<Storage>): void => {
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

const recordContract = (open: () => Promise<Storage>): void => {
  test("a board is found by its id, whole", async () => {
    const storage = await open();
    await storage.addBoard(board("fuses"));
    expect(await storage.board("fuses")).toEqual(board("fuses"));
    expect(await storage.board("other")).toBeNull();
  });

  test("the current demo is the latest demo that was not retired", async () => {
    const storage = await open();
    expect(await storage.currentDemo()).toBeNull();
    await storage.addBoard(board("demo-1", { demo: true }));
    await storage.addBoard(board("fuses"));
    await storage.addBoard(board("demo-2", { demo: true }));
    expect((await storage.currentDemo())?.id).toBe("demo-2");
    await storage.retireBoard("demo-2", 9);
    expect((await storage.currentDemo())?.id).toBe("demo-1");
  });

  test("a retired board forgets its updates and keeps its devices and links, to say why", async () => {
    const storage = await open();
    await storage.addBoard(board("fuses"));
    await storage.addDevice(device("anneli-phone"));
    await storage.addLink(link("horns"));
    storage.append(update("fuses", 1));
    storage.append(update("other", 1));
    await storage.retireBoard("fuses", 9);
    expect((await storage.board("fuses"))?.retiredAt).toBe(9);
    expect(await storage.load("fuses")).toEqual([]);
    expect(await storage.load("other")).toHaveLength(1);
    expect(await storage.deviceByToken("hash-of-anneli-phone")).not.toBeNull();
    expect(await storage.linkBySecret("hash-of-horns")).not.toBeNull();
  });

  test("links are found by the hash of their secret and listed per board, oldest first", async () => {
    const storage = await open();
    await storage.addLink(link("horns", { expiresAt: 77 }));
    await storage.addLink(link("elsewhere", { board: "other" }));
    await storage.addLink(link("audience", { role: "guest" }));
    expect(await storage.linkBySecret("hash-of-horns")).toEqual(link("horns", { expiresAt: 77 }));
    expect(await storage.linkBySecret("hash-of-nothing")).toBeNull();
    expect((await storage.links("fuses")).map(({ id }) => id)).toEqual(["horns", "audience"]);
  });

  test("a link is withdrawn once, and only from its own board", async () => {
    const storage = await open();
    await storage.addLink(link("horns"));
    expect(await storage.revokeLink("other", "horns", 5)).toBe(false);
    expect(await storage.revokeLink("fuses", "nothing", 5)).toBe(false);
    expect(await storage.revokeLink("fuses", "horns", 5)).toBe(true);
    expect(await storage.revokeLink("fuses", "horns", 6)).toBe(true);
    expect((await storage.linkBySecret("hash-of-horns"))?.revokedAt).toBe(5);
  });

  test("a device is found by the hash of its token and can be bound to a person", async () => {
    const storage = await open();
    await storage.addDevice(device("anneli-phone"));
    expect(await storage.deviceByToken("hash-of-anneli-phone")).toEqual(device("anneli-phone"));
    await storage.changeDevice("fuses", "anneli-phone", { memberId: "anneli" });
    expect((await storage.deviceByToken("hash-of-anneli-phone"))?.memberId).toBe("anneli");
    expect(await storage.deviceByToken("hash-of-nothing")).toBeNull();
  });

  test("two records never share an id", async () => {
    const storage = await open();
    await storage.addBoard(board("fuses"));
    await expect(storage.addBoard(board("fuses", { name: "Another" }))).rejects.toThrow(StorageRefusal);
    expect((await storage.board("fuses"))?.name).toBe("Six Spare Fuses");
  });
};
