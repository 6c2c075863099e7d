import { expect, test } from "vitest";
import * as Y from "yjs";
import { awarenessFrame, missingFrame, stateVectorFrame, updateFrame } from "#server/rooms/frames.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { migrate, SCHEMA } from "#shared/document/migrations/migrate.ts";
import { createFaultyStorage } from "#tests/support/faulty-storage.ts";
import { ASK_FOR_ALL, createWriter, documentAt, framesTo, openRooms } from "#tests/support/room-test.ts";
import { durableQueryFrame } from "#tests/support/stock-client.ts";

/** A storage whose document has a snapshot of this release's shape and, after it, so many rows. */
const storedBoard = async (tail: number, schema = SCHEMA) => {
  const storage = createFaultyStorage();
  const phone = createWriter(1);
  const row = (bytes: Uint8Array) =>
    storage.append({ document: "fuses", device: "anneli", member: null, at: 1, bytes });
  migrate(createBoardDocument(phone.doc));
  phone.set("intro", "noticed");
  const upTo = row(Y.encodeStateAsUpdate(phone.doc));
  const bytes = Y.encodeStateAsUpdate(phone.doc);
  const stateVector = Y.encodeStateVector(phone.doc);
  await storage.compact("fuses", { upTo, at: 1, bytes, stateVector, schema });
  for (let i = 0; i < tail; i++) row(phone.set(`row-${i}`, i));
  return { storage, phone };
};

const openCold = async (tail: number, schema = SCHEMA) => {
  const { storage, phone } = await storedBoard(tail, schema);
  const setup = openRooms({}, storage);
  const live = async (): Promise<boolean> => (await setup.rooms.open("fuses")).kept.live !== null;
  return { ...setup, phone, live };
};

/** The same a moment after the room was opened: what was read then is not kept any more. */
const openAged = async (tail: number) => {
  const setup = await openCold(tail);
  await setup.rooms.open("fuses");
  setup.pass(1000);
  return setup;
};

/** Kinds of frames without presence. */
const content = (kinds: readonly string[]): readonly string[] => kinds.filter((kind) => kind !== "presence");

for (const tail of [0, 1, 7])
  test(`[SRV-7] with ${tail} rows after its snapshot, a board is served from them, and the step that means synced comes last`, async () => {
    const { join, live, phone, pass } = await openCold(tail);
    for (const later of [false, true]) {
      // Once what was read at the opening is let go, it is read again.
      if (later) pass(1000);
      const { socket, connection } = await join(`phone-${later}`);
      connection.receive(ASK_FOR_ALL);
      await expect.poll(() => framesTo(socket).at(-1)).toBe("missing");
      expect(content(framesTo(socket))).toEqual(["state-vector", ...(tail > 0 ? ["update"] : []), "missing"]);
      expect(documentAt(socket).getMap("cards").toJSON()).toEqual(phone.doc.getMap("cards").toJSON());
      expect(Y.encodeStateVector(documentAt(socket))).toEqual(Y.encodeStateVector(phone.doc));
    }
    expect(await live()).toBe(false);
  });

test("[SRV-7] a writer is told how far the stored rows go, so that it sends what they lack and no more", async () => {
  const { join, phone, live } = await openCold(3);
  const { socket } = await join("priya");
  expect(socket.sent[0]).toEqual(stateVectorFrame(Y.encodeStateVector(phone.doc)));
  expect(await live()).toBe(false);
});

test("a stock device that brings nothing and asks what is stored is answered without reading the document", async () => {
  const { join, phone, live } = await openCold(3);
  const { socket, connection } = await join("priya");
  connection.receive(missingFrame(Uint8Array.of(0, 0)));
  connection.receive(awarenessFrame(Uint8Array.of(0)));
  connection.receive(durableQueryFrame([phone.doc.clientID, 4711]));
  await expect.poll(() => framesTo(socket).at(-1)).toBe("acknowledgement");
  const acknowledged = Y.decodeStateVector((socket.sent.at(-1) ?? new Uint8Array()).slice(1));
  expect([acknowledged.get(1), acknowledged.get(4711)]).toEqual([Y.getState(phone.doc.store, 1), 0]);
  expect(await live()).toBe(false);
});

test("a durable query is answered after a flush, cold as well", async () => {
  const { join, storage } = await openCold(1);
  const { socket, connection } = await join("priya");
  const release = storage.hold();
  connection.receive(durableQueryFrame([1]));
  for (let turns = 0; turns < 20; turns++) await Promise.resolve();
  expect(framesTo(socket)).not.toContain("acknowledgement");
  release();
  await expect.poll(() => framesTo(socket)).toContain("acknowledgement");
});

test("a guest is served the same, and not asked for anything", async () => {
  const { join, phone, live } = await openCold(2);
  const { socket, connection } = await join("screen", { role: "guest" });
  connection.receive(ASK_FOR_ALL);
  expect(content(framesTo(socket))).toEqual(["update", "missing"]);
  expect(documentAt(socket).getMap("cards").size).toBe(phone.doc.getMap("cards").size);
  expect(await live()).toBe(false);
});

test("[SRV-7] a change reads the document, and what comes while it is read is answered in its order", async () => {
  const { join, storage, live } = await openAged(2);
  const first = await join("anneli");
  const second = await join("priya");
  const mine = createWriter(7);
  Y.applyUpdate(mine.doc, Y.encodeStateAsUpdate(documentAt(first.socket)));
  first.connection.receive(updateFrame(mine.set("bridge", 1)));
  first.connection.receive(updateFrame(mine.set("bridge", 2)));
  first.connection.receive(durableQueryFrame([7]));
  second.connection.receive(stateVectorFrame(Y.encodeStateVector(new Map([[99, 1]]))));
  await expect.poll(() => framesTo(first.socket)).toContain("acknowledgement");
  expect(await live()).toBe(true);
  expect(await storage.load("fuses")).toHaveLength(1 + 2 + 2);
  const acknowledgement = socketAcknowledgement(first.socket.sent);
  expect(acknowledgement.get(7)).toBe(2);
  // The second had both changes passed on first, then all it lacked.
  expect(content(framesTo(second.socket))).toEqual(["state-vector", "update", "update", "missing"]);
  expect(documentAt(second.socket).getMap("cards").toJSON()).toMatchObject({ intro: "noticed", bridge: 2 });
});

test("[SRV-7] a change stored while a newcomer's rows are read reaches the newcomer as well", async () => {
  const { join } = await openAged(1);
  const [newcomer, writer] = [await join("priya"), await join("anneli")];
  newcomer.connection.receive(ASK_FOR_ALL);
  writer.connection.receive(updateFrame(createWriter(7).set("bridge", 1)));
  await expect
    .poll(() => documentAt(newcomer.socket).getMap("cards").toJSON())
    .toMatchObject({ bridge: 1, "row-0": 0 });
});

test("work that fails when its turn comes is told so, and what waits behind it is done", async () => {
  const { rooms, join, storage } = await openAged(0);
  const { connection } = await join("anneli");
  const { kept } = await rooms.open("fuses");
  const failures: unknown[] = [];
  const mistake = new Error("a mistake");
  kept.use(
    () => {
      throw mistake;
    },
    (error) => void failures.push(error),
  );
  connection.receive(updateFrame(createWriter(7).set("bridge", 1)));
  await expect.poll(() => storage.load("fuses")).toHaveLength(2);
  expect(failures).toEqual([mistake]);
});

test("a device that was sent away while the document was read has nothing stored any more", async () => {
  const { rooms, join, storage } = await openAged(0);
  const { connection } = await join("karim");
  connection.receive(updateFrame(createWriter(7).set("bridge", 1)));
  rooms.closeDevice("karim", 4411);
  await rooms.read("fuses", () => undefined);
  expect(await storage.load("fuses")).toHaveLength(1);
});

test("a device whose network broke while the document was read has its change stored", async () => {
  const { rooms, join, storage } = await openAged(0);
  const { connection } = await join("karim");
  connection.receive(updateFrame(createWriter(7).set("bridge", 1)));
  connection.left();
  await rooms.read("fuses", () => undefined);
  expect(await storage.load("fuses")).toHaveLength(2);
});

test("an older release's snapshot is read and brought to this release's shape before anybody joins", async () => {
  const { storage } = await storedBoard(0, SCHEMA);
  await storage.forget("fuses");
  const phone = createWriter(1);
  phone.doc.getMap("band").set("settings", { "claim.1": 0.5 });
  storage.append({
    document: "fuses",
    device: "d",
    member: null,
    at: 1,
    bytes: Y.encodeStateAsUpdate(phone.doc),
  });
  const { rooms, join } = openRooms({}, storage);
  const { socket } = await join("anneli");
  const rows = await storage.load("fuses");
  expect(rows.map(({ device }) => device)).toEqual(["d", "server"]);
  expect(await rooms.read("fuses", ({ entries }) => [...entries("migrations")].length)).toBe(SCHEMA);
  expect(content(framesTo(socket))).toEqual(["state-vector"]);
});

test("a board that cannot be migrated for want of room is read all the same", async () => {
  const storage = createFaultyStorage();
  const phone = createWriter(1);
  storage.append({
    document: "fuses",
    device: "d",
    member: null,
    at: 1,
    bytes: phone.set("intro", "noticed"),
  });
  storage.full = true;
  const { join, events } = openRooms({}, storage);
  const { socket, connection } = await join("anneli");
  connection.receive(ASK_FOR_ALL);
  await expect.poll(() => documentAt(socket).getMap("cards").get("intro")).toBe("noticed");
  expect(events).toContain("not-migrated");
});

test("a row that cannot be read without the document makes it be read, and is left out", async () => {
  const { storage } = await storedBoard(1);
  storage.append({ document: "fuses", device: "d", member: null, at: 1, bytes: Uint8Array.of(1, 200, 1) });
  const { rooms, join, events } = openRooms({}, storage);
  expect((await rooms.open("fuses")).kept.live).not.toBeNull();
  const { socket, connection } = await join("anneli");
  connection.receive(stateVectorFrame(Y.encodeStateVector(new Map([[99, 1]]))));
  expect(documentAt(socket).getMap("cards").toJSON()).toEqual({ intro: "noticed", "row-0": 0 });
  expect(events).toContain("row-left-out");
});

test("a log that can be read no more sends everybody away to come again, and the next who comes tries anew", async () => {
  const { storage } = await storedBoard(1);
  const broken = { ...storage, load: () => Promise.reject(new Error("input/output error")) };
  const switched = { ...storage, load: storage.load };
  const { rooms, join, pass } = openRooms({}, switched);
  const { socket, connection } = await join("anneli");
  pass(1000);
  switched.load = broken.load;
  connection.receive(updateFrame(createWriter(7).set("bridge", 1)));
  await expect.poll(() => socket.closedWith).toBe(1011);
  await expect(rooms.read("fuses", () => 1)).rejects.toThrow("input/output error");
  switched.load = storage.load;
  await expect(rooms.read("fuses", (board) => board.get("cards", "intro"))).resolves.toBe("noticed");
});

test("documents used longest ago leave the memory when there are too many, and their devices stay", async () => {
  const { rooms, join, pass, storage } = openRooms({ boardsInMemory: 1 });
  const { socket, connection } = await join("anneli");
  connection.receive(updateFrame(createWriter(1).set("intro", "noticed")));
  pass(1000);
  const write = (value: number) =>
    rooms.write("other", { device: "dep", member: null }, (board) =>
      board.transact("test", (set) => set("cards", "a", value)),
    );
  await write(1);
  pass(10_000);
  // Whatever was used a moment ago stays.
  expect(rooms.gauges.documents).toBe(2);
  pass(25_000);
  await write(2);
  for (let second = 0; second < 5; second++) {
    pass(1000);
    await new Promise((done) => setImmediate(done));
  }
  expect(rooms.gauges).toMatchObject({ documents: 1, boards: 2, connections: 1 });
  expect((await rooms.open("fuses")).kept.live).toBeNull();
  const told = (await join("priya")).socket.sent[0];
  expect(told).toEqual(
    stateVectorFrame((await storage.load("fuses"))[0]?.snapshot?.stateVector ?? new Uint8Array()),
  );
  // What it was folded into is its rows now, and the next change is taken as ever.
  const rows = (await storage.load("fuses")).length;
  connection.receive(updateFrame(createWriter(2).set("outro", "noticed")));
  await expect.poll(() => storage.load("fuses")).toHaveLength(rows + 1);
  expect(socket.closedWith).toBeNull();
});

const socketAcknowledgement = (sent: readonly Uint8Array[]): Map<number, number> => {
  const frame = sent.findLast(([type]) => type === 120) ?? Uint8Array.of(120, 0);
  return Y.decodeStateVector(frame.slice(1));
};
