import { expect, test } from "vitest";
import { type Storage, StorageRefusal } from "#server/storage/storage.ts";
import { board, device, link, update } from "./records.ts";

export const boardTablesContract = (open: () => Promise<Storage>): void => {
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

  test("two records never share an id", async () => {
    const storage = await open();
    await storage.addBoard(board("fuses"));
    await expect(storage.addBoard(board("fuses", { name: "Another" }))).rejects.toThrow(StorageRefusal);
    expect((await storage.board("fuses"))?.name).toBe("Six Spare Fuses");
  });

  test("a board is erased to what tells its devices so", async () => {
    const storage = await open();
    await storage.addBoard(board("fuses", { recoveryHash: "hash-of-code" }));
    await storage.addDevice(device("anneli-phone", { memberId: "anneli" }));
    await storage.addLink(link("horns"));
    await storage.setPrivate("fuses", "anneli", "range", "[1]", 5);
    await storage.setPrivate("other", "anneli", "range", "[2]", 5);
    storage.append(update("fuses", 1));
    storage.append(update("other", 1));
    await storage.eraseBoard("fuses", 9);
    await storage.eraseBoard("fuses", 10);
    expect(await storage.board("fuses")).toMatchObject({ name: "", erasedAt: 9, recoveryHash: null });
    expect(await storage.boardByRecovery("hash-of-code")).toBeNull();
    expect([await storage.load("fuses"), await storage.links("fuses")]).toEqual([[], []]);
    expect(await storage.privateValues("fuses", "anneli")).toEqual([]);
    expect(await storage.deviceByToken("hash-of-anneli-phone")).toMatchObject({ name: "", memberId: null });
    expect(await storage.load("other")).toHaveLength(1);
    expect(await storage.privateValues("other", "anneli")).toHaveLength(1);
  });

  test("a board is found by its recovery code until that is replaced or taken away", async () => {
    const storage = await open();
    await storage.addBoard(board("fuses", { recoveryHash: "first" }));
    expect((await storage.boardByRecovery("first"))?.id).toBe("fuses");
    await storage.setRecovery("fuses", "second");
    expect(await storage.boardByRecovery("first")).toBeNull();
    expect((await storage.boardByRecovery("second"))?.id).toBe("fuses");
    await storage.setRecovery("fuses", null);
    expect(await storage.boardByRecovery("second")).toBeNull();
  });

  test("a new board has one open season, its own document", async () => {
    const storage = await open();
    await storage.addBoard(board("fuses"));
    const first = {
      board: "fuses",
      document: "fuses",
      season: 1,
      openedAt: 1_900_000_000_000,
      closedAt: null,
    };
    expect(await storage.seasons("fuses")).toEqual([first]);
    expect(await storage.seasonOf("fuses")).toEqual(first);
    expect(await storage.seasonOf("nothing")).toBeNull();
  });

  test("the next season opens with its first row and closes the one before", async () => {
    const storage = await open();
    await storage.addBoard(board("fuses"));
    storage.append(update("fuses", 1));
    const first = { ...update("fuses-2", 7), at: 50 };
    const next = await storage.openSeason("fuses", "fuses", first, false);
    expect(next).toEqual({ board: "fuses", document: "fuses-2", season: 2, openedAt: 50, closedAt: null });
    expect(await storage.board("fuses")).toMatchObject({ document: "fuses-2", season: 2 });
    expect((await storage.seasons("fuses")).map(({ closedAt }) => closedAt)).toEqual([50, null]);
    expect(await storage.seasonOf("fuses-2")).toEqual(next);
    expect(await storage.load("fuses")).toHaveLength(1);
    expect((await storage.load("fuses-2")).map(({ bytes }) => [...bytes])).toEqual([[7]]);
  });

  test("a season opened by erasing forgets the logs of all earlier documents, and no other", async () => {
    const storage = await open();
    await storage.addBoard(board("fuses"));
    storage.append(update("fuses", 1));
    storage.append(update("other", 1));
    await storage.openSeason("fuses", "fuses", update("fuses-2", 2), false);
    await storage.openSeason("fuses", "fuses-2", update("fuses-3", 3), true);
    expect([await storage.load("fuses"), await storage.load("fuses-2")]).toEqual([[], []]);
    expect(await storage.load("fuses-3")).toHaveLength(1);
    expect(await storage.load("other")).toHaveLength(1);
    expect(await storage.seasons("fuses")).toHaveLength(3);
  });

  test("of two who close the same season one does, and the other changes nothing", async () => {
    const storage = await open();
    await storage.addBoard(board("fuses"));
    const both = await Promise.allSettled([
      storage.openSeason("fuses", "fuses", update("fuses-2", 2), true),
      storage.openSeason("fuses", "fuses", update("fuses-3", 3), true),
    ]);
    expect(both.map(({ status }) => status).sort()).toEqual(["fulfilled", "rejected"]);
    expect(both.find(({ status }) => status === "rejected")).toMatchObject({
      reason: expect.any(StorageRefusal),
    });
    const open2 = (await storage.board("fuses"))?.document ?? "";
    expect(await storage.seasons("fuses")).toHaveLength(2);
    expect(await storage.load(open2)).toHaveLength(1);
    expect(await storage.load(open2 === "fuses-2" ? "fuses-3" : "fuses-2")).toEqual([]);
    await expect(storage.openSeason("nothing", "fuses", update("fuses-4", 4), false)).rejects.toThrow(
      StorageRefusal,
    );
  });
};
