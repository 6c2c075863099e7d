import { expect, test, vi } from "vitest";
import * as Y from "yjs";
import type { DeviceSession } from "#server/access/access-policy.ts";
import type { Log } from "#server/log.ts";
import { updateFrame } from "#server/rooms/frames.ts";
import { inspectUpdate } from "#server/rooms/inspect-update.ts";
import { RoomRegistry } from "#server/rooms/room-registry.ts";
import { createGroupFlush } from "#server/storage/group-flush.ts";
import { createMemoryStorage } from "#server/storage/memory-storage.ts";
import { createFakeFrameSocket } from "#tests/support/fake-frame-socket.ts";
import { createFaultyStorage } from "#tests/support/faulty-storage.ts";
import { sessionOn } from "#tests/support/open-access.ts";
import { roomBounds, roomParts } from "#tests/support/room-parts.ts";

const session = (device: string): DeviceSession =>
  sessionOn("fuses", { device, role: "member", memberId: device });

const setup = (storage = createMemoryStorage()) => {
  let now = 0;
  const events: string[] = [];
  const note = (event: string): void => void events.push(event);
  const log: Log = { info: note, warn: note, error: note };
  const bounds = roomBounds({ bufferedBytes: 1000 });
  const rooms = new RoomRegistry({ storage, ...roomParts({ bounds, log, clock: () => now }) });
  const pass = (ms: number): void => {
    now += ms;
    rooms.tick();
  };
  return { rooms, storage, events, pass };
};

const change = (key: string): Uint8Array => {
  const doc = new Y.Doc();
  doc.getMap("cards").set(key, "noticed");
  return Y.encodeStateAsUpdate(doc);
};

/**
 * An update with one byte changed that Yjs 13.6 reads whole and then fails to apply ("Cannot read properties of undefined").
 * Found by changing each byte of an update with maps, a text, an array and an XML element to each other value.
 */
const POISON = Uint8Array.from(
  Buffer.from(
    "010b070021010563617264730161012701056361726473017402040007020154810702028407040272652701056361726473036172720008" +
      "000707037d01770374776f760101717d0146070201620474727565c6070407050162046e756c6c2701056361726473017803017" +
      "0a807000177017901070200010302",
    "hex",
  ),
);

test("a reader that is too slow is sent away to come again, the others go on", async () => {
  const { rooms } = setup();
  const room = await rooms.open("fuses");
  const [writer, slow, quick] = [createFakeFrameSocket(), createFakeFrameSocket(), createFakeFrameSocket()];
  const from = room.join(writer, session("anneli"));
  room.join(slow, session("priya"));
  room.join(quick, session("karim"));
  slow.bufferedAmount = 1001;
  quick.bufferedAmount = 1000;
  from.receive(updateFrame(change("intro")));
  // RFC 6455 and the IANA registry: 1013 = try again later.
  expect([slow.closedWith, quick.closedWith, writer.closedWith]).toEqual([1013, null, null]);
  expect(quick.sent).toHaveLength(2);
  expect(room.size).toBe(2);
});

test("a slow device that has asked for a large board may have it waiting, and no more than that", async () => {
  const { rooms } = setup();
  const room = await rooms.open("fuses");
  const [writer, slow] = [createFakeFrameSocket(), createFakeFrameSocket()];
  const from = room.join(writer, session("anneli"));
  const doc = new Y.Doc();
  doc.getMap("cards").set("intro", "x".repeat(5000));
  from.receive(updateFrame(Y.encodeStateAsUpdate(doc)));
  room.join(slow, session("priya")).receive(Uint8Array.of(0, 0, 1, 0));
  slow.bufferedAmount = 5900;
  from.receive(updateFrame(change("outro")));
  expect(slow.closedWith).toBeNull();
  slow.bufferedAmount = 6100;
  from.receive(updateFrame(change("bridge")));
  expect(slow.closedWith).toBe(1013);
});

test("an empty room stays for a while, then goes; a room with somebody in it stays", async () => {
  const { rooms, pass } = setup();
  const room = await rooms.open("fuses");
  const connection = room.join(createFakeFrameSocket(), session("anneli"));
  pass(120_000);
  expect(rooms.gauges.boards).toBe(1);
  connection.left();
  pass(59_999);
  expect(rooms.gauges.boards).toBe(1);
  pass(1);
  expect(rooms.gauges.boards).toBe(0);
  expect(await rooms.open("fuses")).not.toBe(room);
});

test("two who come at once get the same room", async () => {
  const { rooms } = setup();
  const [one, two] = await Promise.all([rooms.open("fuses"), rooms.open("fuses")]);
  expect(one).toBe(two);
});

test("a room with changes the disk refused stays until they are stored", async () => {
  const storage = createFaultyStorage();
  const { rooms, pass } = setup(storage);
  const room = await rooms.open("fuses");
  const socket = createFakeFrameSocket();
  const connection = room.join(socket, session("anneli"));
  storage.full = true;
  connection.receive(updateFrame(change("intro")));
  expect(socket.closedWith).toBe(4507);
  pass(600_000);
  expect(rooms.gauges).toMatchObject({ boards: 1, storing: false });
  storage.full = false;
  pass(1000);
  expect(await storage.load("fuses")).toHaveLength(1);
  pass(60_000);
  expect(rooms.gauges.boards).toBe(0);
});

test("a row that cannot be applied is left out and reported, the rest of the board opens", async () => {
  const { rooms, storage, events } = setup();
  const row = (bytes: Uint8Array) => ({ document: "fuses", device: "d", member: null, at: 1, bytes });
  storage.append(row(change("intro")));
  storage.append(row(Uint8Array.from([1, 200, 1])));
  storage.append(row(change("outro")));
  const socket = createFakeFrameSocket();
  (await rooms.open("fuses")).join(socket, session("anneli")).receive(Uint8Array.from([0, 0, 1, 0]));
  const reply = socket.sent.find(([type, step]) => type === 0 && step === 1);
  const doc = new Y.Doc();
  // Frame type, step, and a length of one byte stand before the update.
  Y.applyUpdate(doc, (reply ?? new Uint8Array()).slice(3));
  expect(doc.getMap("cards").toJSON()).toEqual({ intro: "noticed", outro: "noticed" });
  expect(events).toContain("row-left-out");
});

test("[SRV-3] an update that breaks the document sends its sender away, and the document is read from the log again", async () => {
  const { rooms, storage, events } = setup();
  const room = await rooms.open("fuses");
  const [bad, other] = [createFakeFrameSocket(), createFakeFrameSocket()];
  expect(() => inspectUpdate(POISON)).not.toThrow();
  const from = room.join(bad, session("karim"));
  const neighbour = room.join(other, session("priya"));
  neighbour.receive(updateFrame(change("intro")));
  from.receive(updateFrame(POISON));
  neighbour.receive(updateFrame(change("outro")));
  expect(events).toContain("document-broken");
  expect([bad.closedWith, other.closedWith]).toEqual([4400, null]);
  await expect.poll(() => storage.load("fuses")).toHaveLength(2);
  expect(await rooms.read("fuses", ({ entries }) => [...entries("cards")])).toEqual([
    ["intro", "noticed"],
    ["outro", "noticed"],
  ]);
});

test("[SRV-3] an update that takes a value away and puts none in its place is not kept, and what stood there stays", async () => {
  const { rooms, storage } = setup();
  const room = await rooms.open("fuses");
  const [bad, other] = [createFakeFrameSocket(), createFakeFrameSocket()];
  const neighbour = room.join(other, session("priya"));
  neighbour.receive(updateFrame(change("intro")));
  const from = room.join(bad, session("karim"));
  const mine = new Y.Doc();
  for (const { bytes } of await storage.load("fuses")) Y.applyUpdate(mine, bytes);
  const before = Y.encodeStateVector(mine);
  mine.getMap("cards").delete("intro");
  from.receive(updateFrame(Y.encodeStateAsUpdate(mine, before)));
  expect([bad.closedWith, other.closedWith]).toEqual([4400, null]);
  await expect.poll(() => storage.load("fuses")).toHaveLength(1);
  // Written over, it is a change like any other.
  const again = room.join(createFakeFrameSocket(), session("anneli"));
  const theirs = new Y.Doc();
  for (const { bytes } of await storage.load("fuses")) Y.applyUpdate(theirs, bytes);
  theirs.getMap("cards").set("intro", "practised");
  again.receive(updateFrame(Y.encodeStateAsUpdate(theirs, before)));
  expect(await rooms.read("fuses", ({ entries }) => [...entries("cards")])).toEqual([["intro", "practised"]]);
});

test("[SRV-3] changes and deletions of no length are malformed", () => {
  // Client 1, clock 0: a string of no length in the map "cards"; then a deletion of client 1, clock 0, of no length.
  for (const hex of ["01010100040105636172647300" + "00", "000101010000"])
    expect(() => inspectUpdate(Uint8Array.from(Buffer.from(hex, "hex")))).toThrow(/no length/);
});

test("whoever asks for a flush gets one that begins after the question, shared by all who ask meanwhile", async () => {
  const begun: (() => void)[] = [];
  const flush = createGroupFlush(() => new Promise((done) => begun.push(done)));
  const first = flush();
  const [second, third] = [flush(), flush()];
  expect(begun).toHaveLength(1);
  begun[0]?.();
  await first;
  await vi.waitUntil(() => begun.length > 1);
  begun[1]?.();
  await Promise.all([second, third]);
  expect(begun).toHaveLength(2);
});

test("a flush that fails is told to those who waited for it, and the next one runs all the same", async () => {
  let fails = true;
  const flush = createGroupFlush(async () => {
    if (fails) throw new Error("input/output error");
  });
  await expect(flush()).rejects.toThrow("input/output error");
  fails = false;
  await expect(flush()).resolves.toBeUndefined();
});
