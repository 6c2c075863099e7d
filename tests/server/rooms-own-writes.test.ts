import { expect, test } from "vitest";
import * as Y from "yjs";
import type { DeviceSession } from "#server/access/access-policy.ts";
import { decodeFrame, updateFrame } from "#server/rooms/frames.ts";
import { DocumentFrozen, RoomRegistry } from "#server/rooms/room-registry.ts";
import { StorageRefusal } from "#server/storage/storage.ts";
import type { BoardDocument } from "#shared/document/board-document.ts";
import { createFakeFrameSocket, type FakeFrameSocket } from "#tests/support/fake-frame-socket.ts";
import { createFaultyStorage } from "#tests/support/faulty-storage.ts";
import { sessionOn } from "#tests/support/open-access.ts";
import { roomParts } from "#tests/support/room-parts.ts";

const setup = () => {
  const storage = createFaultyStorage();
  const rooms = new RoomRegistry({ storage, ...roomParts({ clock: () => 7 }) });
  const join = async (document: string, changes: Partial<DeviceSession> = {}) => {
    const socket = createFakeFrameSocket();
    const connection = (await rooms.open(document)).join(socket, sessionOn(document, changes));
    return { socket, connection };
  };
  return { storage, rooms, join };
};

const dep = { device: "dep-phone", member: "bo" };

const answer =
  (value: string) =>
  (document: BoardDocument): string => {
    document.transact("dep", (set) => set("songs", "intro", value));
    return value;
  };

const change = (key: string): Uint8Array => {
  const doc = new Y.Doc();
  doc.getMap("cards").set(key, "noticed");
  return Y.encodeStateAsUpdate(doc);
};

const updatesIn = ({ sent }: FakeFrameSocket): Uint8Array[] =>
  sent.flatMap((bytes) => {
    const frame = decodeFrame(bytes);
    return frame.kind === "update" ? [frame.bytes] : [];
  });

test("[SRV-8] the server's own write is one row with its author, reaches everybody, and resolves once it is on the disk", async () => {
  const { storage, rooms, join } = setup();
  const { socket } = await join("fuses");
  const release = storage.hold();
  let durable = false;
  const writing = rooms.write("fuses", dep, answer("yes")).then((value) => {
    durable = true;
    return value;
  });
  await expect.poll(() => storage.load("fuses")).toHaveLength(1);
  expect([durable, updatesIn(socket)]).toEqual([false, []]);
  release();
  expect(await writing).toBe("yes");
  const [row] = await storage.load("fuses");
  expect(row).toMatchObject({ device: "dep-phone", member: "bo", at: 7 });
  expect(updatesIn(socket)).toEqual([row?.bytes]);
  expect(await rooms.read("fuses", (document) => document.get("songs", "intro"))).toBe("yes");
});

test("[SRV-8] an own write the log refuses is seen by nobody, and is not there afterwards", async () => {
  const { storage, rooms, join } = setup();
  const { socket } = await join("fuses");
  storage.full = true;
  await expect(rooms.write("fuses", dep, answer("yes"))).rejects.toThrow(StorageRefusal);
  expect([updatesIn(socket), socket.closedWith]).toEqual([[], null]);
  storage.full = false;
  expect(await rooms.read("fuses", (document) => document.get("songs", "intro"))).toBeUndefined();
  expect(await rooms.write("fuses", dep, answer("no"))).toBe("no");
});

test("[SRV-8] an own write the disk does not sync was passed on to nobody when it is refused", async () => {
  const { storage, rooms, join } = setup();
  const { socket } = await join("fuses");
  storage.broken = true;
  await expect(rooms.write("fuses", dep, answer("yes"))).rejects.toThrow(StorageRefusal);
  expect([updatesIn(socket), socket.closedWith]).toEqual([[], 4507]);
});

test("[SRV-8] an own write that fails half-way leaves nothing behind and says why", async () => {
  const { storage, rooms } = setup();
  const failing = rooms.write("fuses", dep, (document) => {
    answer("half")(document);
    throw new Error("the other half is missing");
  });
  await expect(failing).rejects.toThrow("the other half is missing");
  expect(await storage.load("fuses")).toEqual([]);
  expect(await rooms.read("fuses", (document) => document.get("songs", "intro"))).toBeUndefined();
});

test("a room stays while an own write waits for the disk", async () => {
  const { storage, rooms } = setup();
  const room = await rooms.open("fuses");
  const release = storage.hold();
  const writing = room.write(dep, answer("yes"));
  expect(room.idleSince).toBeNull();
  release();
  await writing;
  expect(room.idleSince).toBe(7);
});

test("a removed device's connections are cut at once, the others go on", async () => {
  const { rooms, join } = setup();
  const removed = await join("fuses", { device: "karim" });
  const other = await join("fuses", { device: "priya" });
  const elsewhere = await join("other", { device: "karim" });
  const before = rooms.evictions;
  rooms.closeDevice("karim", 4411);
  expect([removed, other, elsewhere].map(({ socket }) => socket.closedWith)).toEqual([4411, null, 4411]);
  removed.connection.receive(updateFrame(change("intro")));
  expect(updatesIn(other.socket)).toEqual([]);
  expect(rooms.evictions).toBeGreaterThan(before);
});

test("a board's connections are cut in all its documents, another board's are not", async () => {
  const { rooms, join } = setup();
  const first = await join("season-1", { board: "fuses" });
  const second = await join("season-2", { board: "fuses" });
  const other = await join("other");
  rooms.closeBoard("fuses", 4415);
  expect([first, second, other].map(({ socket }) => socket.closedWith)).toEqual([4415, 4415, null]);
});

test("the devices that are here are named per board", async () => {
  const { rooms, join } = setup();
  const { connection } = await join("fuses", { device: "karim" });
  await join("fuses", { device: "priya" });
  await join("other", { device: "anneli" });
  expect([...rooms.devicesHere("fuses")]).toEqual(["karim", "priya"]);
  connection.left();
  expect([...rooms.devicesHere("fuses")]).toEqual(["priya"]);
  expect(rooms.devicesHere("nowhere").size).toBe(0);
});

test("a frozen document has everything stored, everybody is out, and nobody gets in while the work runs", async () => {
  const { storage, rooms, join } = setup();
  const { socket, connection } = await join("fuses");
  connection.receive(updateFrame(change("intro")));
  const evictions = rooms.evictions;
  const seen = await rooms.freeze("fuses", 4409, async (doc) => {
    await expect(rooms.open("fuses")).rejects.toThrow(DocumentFrozen);
    await expect(rooms.write("fuses", dep, answer("yes"))).rejects.toThrow(StorageRefusal);
    await expect(rooms.freeze("fuses", 4409, async () => 1)).rejects.toThrow(DocumentFrozen);
    connection.receive(updateFrame(change("outro")));
    return doc.getMap("cards").toJSON();
  });
  expect(seen).toEqual({ intro: "noticed" });
  expect(socket.closedWith).toBe(4409);
  expect(rooms.gauges.boards).toBe(0);
  expect(rooms.evictions).toBeGreaterThan(evictions);
  expect(await storage.load("fuses")).toHaveLength(1);
});

test("somebody who was on their way in when the document froze does not get in", async () => {
  const { rooms } = setup();
  const opening = rooms.open("fuses");
  const freezing = rooms.freeze("fuses", 4409, async () => "done");
  await expect(opening).rejects.toThrow(DocumentFrozen);
  expect(await freezing).toBe("done");
});

test("after work that failed, the document can be opened again", async () => {
  const { rooms, join } = setup();
  const { connection } = await join("fuses");
  connection.receive(updateFrame(change("intro")));
  const failing = rooms.freeze("fuses", 4409, async () => {
    throw new Error("no room for another season");
  });
  await expect(failing).rejects.toThrow("no room for another season");
  const again = await rooms.open("fuses");
  expect(await again.read((document) => document.get("cards", "intro"))).toBe("noticed");
});

test("a document whose changes cannot be stored is not frozen, and nobody is sent away for good", async () => {
  const { storage, rooms, join } = setup();
  const { socket, connection } = await join("fuses");
  storage.broken = true;
  connection.receive(updateFrame(change("intro")));
  let ran = false;
  const freezing = rooms.freeze("fuses", 4409, async () => {
    ran = true;
  });
  await expect(freezing).rejects.toThrow(StorageRefusal);
  expect([ran, socket.sent.some(([type]) => type === 120), socket.closedWith]).toEqual([false, false, 4507]);
  storage.broken = false;
  await expect(rooms.open("fuses")).resolves.toBeDefined();
});

test("[SRV-8] what was forgotten while a document was frozen is not written back by work that was under way", async () => {
  const { storage, rooms, join } = setup();
  const { connection } = await join("fuses");
  connection.receive(updateFrame(change("intro")));
  const room = await rooms.open("fuses");
  await rooms.freeze("fuses", 4415, () => storage.forget("fuses"));
  expect(await room.kept.fold()).toBe(false);
  await expect(room.write(dep, answer("yes"))).rejects.toThrow(StorageRefusal);
  expect([await storage.load("fuses"), await storage.history("fuses", {})]).toEqual([[], []]);
  rooms.closeDocument("fuses", 4410);
});
