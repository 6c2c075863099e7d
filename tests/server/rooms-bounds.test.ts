import * as encoding from "lib0/encoding";
import { expect, test } from "vitest";
import * as Y from "yjs";
import { acknowledgementFrame, awarenessFrame, stateVectorFrame, updateFrame } from "#server/rooms/frames.ts";
import { BoardFull } from "#server/rooms/room.ts";
import { ASK_FOR_ALL, createWriter, documentAt, framesTo, openRooms } from "#tests/support/room-test.ts";
import { durableQueryFrame } from "#tests/support/stock-client.ts";

/** An encoded update with one struct of a client, from `clock` on, that stands for so many changes (Yjs: a GC, info 0). */
const oneStruct = (clock: number, length: number, info = 0): Uint8Array =>
  encoding.encode((encoder) => {
    for (const value of [1, 1, 5, clock]) encoding.writeVarUint(encoder, value);
    encoding.writeUint8(encoder, info);
    for (const value of [length, 0]) encoding.writeVarUint(encoder, value);
  });

const SKIP = 10;

test("[SRV-6] a month offline comes back in 600 changes at once, and so does an import of several MB", async () => {
  const { join } = openRooms();
  const { connection, socket } = await join("anneli");
  const phone = createWriter();
  for (let i = 0; i < 600; i++) connection.receive(updateFrame(phone.set(`card-${i}`, i)));
  connection.receive(updateFrame(phone.set("import", "x".repeat(6_000_000))));
  expect(socket.closedWith).toBeNull();
});

test("[SRV-6] a flood of tiny changes is cut once its minute's worth is used up, and goes on after a while", async () => {
  const { join, pass } = openRooms({ framesPerSecond: 10 });
  const { connection, socket } = await join("karim");
  const { socket: neighbour } = await join("priya");
  const phone = createWriter();
  let taken = 0;
  for (; socket.closedWith === null && taken < 10_000; taken++)
    connection.receive(updateFrame(phone.set("card", taken)));
  // A minute's worth, and the one that found nothing left.
  expect([taken, socket.closedWith]).toEqual([601, 4529]);
  expect(neighbour.closedWith).toBeNull();
  pass(1000);
  const again = await join("karim");
  again.connection.receive(updateFrame(phone.set("card", "again")));
  expect(again.socket.closedWith).toBeNull();
});

test("[SRV-6] a steady stream below the rate is never cut", async () => {
  const { join, pass } = openRooms({ framesPerSecond: 10 });
  const { connection, socket } = await join("anneli");
  const phone = createWriter();
  for (let second = 0; second < 300; second++) {
    for (let i = 0; i < 10; i++) connection.receive(updateFrame(phone.set("card", second * 10 + i)));
    pass(1000);
  }
  expect(socket.closedWith).toBeNull();
});

test("[SRV-6] bytes are bounded like messages", async () => {
  const { join } = openRooms({ bytesPerSecond: 1024 });
  const { connection, socket } = await join("karim");
  const phone = createWriter();
  const receive = (): void => connection.receive(updateFrame(phone.set("card", "x".repeat(30_000))));
  for (let i = 0; i < 3; i++) receive();
  expect(socket.closedWith).toBeNull();
  receive();
  expect(socket.closedWith).toBe(4529);
});

test("[SRV-6] questions that cost the server work are bounded on their own", async () => {
  for (const question of [ASK_FOR_ALL, durableQueryFrame([1]), Uint8Array.of(3)]) {
    const { join } = openRooms({ questionsPerSecond: 1 });
    const { connection, socket } = await join("karim");
    for (let i = 0; i < 60; i++) connection.receive(question);
    expect(socket.closedWith).toBeNull();
    connection.receive(question);
    expect(socket.closedWith).toBe(4529);
  }
});

test("[SRV-6] asking for a large board again and again counts as much as the board is long", async () => {
  const stranger = stateVectorFrame(Y.encodeStateVector(new Map([[99, 1]])));
  for (const question of [ASK_FOR_ALL, stranger]) {
    const { join } = openRooms({ bytesPerSecond: 10_000 });
    const writer = await join("anneli");
    writer.connection.receive(updateFrame(createWriter().set("card", "x".repeat(400_000))));
    const { connection, socket } = await join("karim");
    for (let asked = 0; asked < 2; asked++) connection.receive(question);
    expect([socket.closedWith, framesTo(socket)]).toEqual([null, ["state-vector", "missing", "missing"]]);
    connection.receive(question);
    expect(socket.closedWith).toBe(4529);
  }
});

test("[SRV-6] a dozen guests who open a folded board at once cost the board little", async () => {
  const { join, pass, rooms } = openRooms({ boardBytesPerSecond: 20_000, foldRows: 1 });
  const writer = await join("anneli");
  writer.connection.receive(updateFrame(createWriter().set("card", "x".repeat(400_000))));
  pass(2000);
  await expect.poll(async () => (await rooms.open("fuses")).kept.isServedFromRows).toBe(true);
  for (let guest = 0; guest < 12; guest++) {
    const { connection, socket } = await join(`guest-${guest}`, { role: "guest" });
    connection.receive(ASK_FOR_ALL);
    await expect.poll(() => framesTo(socket)).toContain("missing");
    expect(socket.closedWith).toBeNull();
  }
  expect(writer.socket.closedWith).toBeNull();
});

test("[SRV-6] presence that comes too fast is left out, and the device stays", async () => {
  const { join } = openRooms({ presencePerSecond: 1 });
  const { connection, socket } = await join("karim");
  const { socket: neighbour } = await join("priya");
  const presence = (clock: number): Uint8Array =>
    awarenessFrame(
      encoding.encode((encoder) => {
        for (const value of [1, 7, clock]) encoding.writeVarUint(encoder, value);
        encoding.writeVarString(encoder, '{"at":"song"}');
      }),
    );
  for (let clock = 1; clock <= 100; clock++) connection.receive(presence(clock));
  expect([neighbour.sent.length, socket.closedWith]).toEqual([1 + 60, null]);
});

test("[SRV-6] when a board as a whole gets too much, whoever sent the most goes, not who sent last", async () => {
  const { join, storage } = openRooms({ boardFramesPerSecond: 10 });
  const [flood, quiet] = [await join("karim"), await join("priya")];
  const [karim, priya] = [createWriter(1), createWriter(2)];
  for (let i = 0; i < 600; i++) flood.connection.receive(updateFrame(karim.set("card", i)));
  expect(flood.socket.closedWith).toBeNull();
  quiet.connection.receive(updateFrame(priya.set("other", 1)));
  expect([flood.socket.closedWith, quiet.socket.closedWith]).toEqual([4529, null]);
  expect((await storage.load("fuses")).at(-1)?.device).toBe("priya");
});

test("[SRV-6] a board at its full size is read and takes no more, from devices and from the server", async () => {
  const { rooms, join, storage } = openRooms({ boardBytes: 10_000 });
  const phone = createWriter();
  const { connection, socket } = await join("anneli");
  connection.receive(updateFrame(phone.set("card", "x".repeat(9000))));
  expect(socket.closedWith).toBeNull();
  connection.receive(updateFrame(phone.set("card", "x".repeat(2000))));
  expect(socket.closedWith).toBe(4414);
  expect(await storage.load("fuses")).toHaveLength(1);
  const again = await join("priya");
  again.connection.receive(ASK_FOR_ALL);
  expect(documentAt(again.socket).getMap("cards").get("card")).toHaveLength(9000);
  const filler = { device: "dep", member: "bo" };
  await rooms.write("fuses", filler, (board) =>
    board.transact("dep", (set) => set("cards", "card", "y".repeat(3000))),
  );
  await expect(rooms.write("fuses", filler, () => 1)).rejects.toThrow(BoardFull);
});

test("[SRV-6] a gap that fills because two frames crossed passes, and nothing of it was stored before", async () => {
  const { join, storage, pass } = openRooms({ gapSeconds: 10 });
  const { connection, socket } = await join("anneli");
  const phone = createWriter();
  const [first, second] = [phone.set("a", 1), phone.set("b", 2)];
  connection.receive(updateFrame(second));
  pass(9000);
  expect([await storage.load("fuses"), socket.closedWith]).toEqual([[], null]);
  connection.receive(updateFrame(first));
  pass(60_000);
  expect(socket.closedWith).toBeNull();
  const { socket: reader, connection: asking } = await join("priya");
  asking.receive(ASK_FOR_ALL);
  expect(documentAt(reader).getMap("cards").toJSON()).toEqual({ a: 1, b: 2 });
});

test("[SRV-6] a gap that never fills is dropped after its time, and who made it is told; others go on", async () => {
  const { join, storage, pass } = openRooms({ gapSeconds: 10 });
  const [bad, good] = [await join("karim"), await join("priya")];
  const phone = createWriter();
  phone.set("lost", 1);
  bad.connection.receive(updateFrame(phone.set("b", 2)));
  good.connection.receive(updateFrame(createWriter(2).set("fine", 1)));
  pass(11_000);
  expect([bad.socket.closedWith, good.socket.closedWith]).toEqual([4422, null]);
  expect(await storage.load("fuses")).toHaveLength(1);
  const { socket, connection } = await join("anneli");
  connection.receive(ASK_FOR_ALL);
  const seen = documentAt(socket);
  expect([seen.getMap("cards").toJSON(), seen.store.pendingStructs]).toEqual([{ fine: 1 }, null]);
});

test("[SRV-6] what waits behind a gap is bounded in bytes, at once", async () => {
  const { join, storage } = openRooms({ gapBytes: 20_000 });
  const [bad, good] = [await join("karim"), await join("priya")];
  const phone = createWriter();
  phone.set("lost", 1);
  for (let i = 0; i < 5; i++) bad.connection.receive(updateFrame(phone.set(`card-${i}`, "x".repeat(5000))));
  expect([bad.socket.closedWith, good.socket.closedWith]).toEqual([4422, null]);
  expect(await storage.load("fuses")).toEqual([]);
});

test("[SRV-6] deletions of what nobody has count as a gap as well", async () => {
  const { join, pass } = openRooms({ gapSeconds: 10 });
  const { connection, socket } = await join("karim");
  // No structs; one client (9) with one deleted range, from clock 0, 5 long.
  connection.receive(updateFrame(Uint8Array.of(0, 1, 9, 1, 0, 5)));
  expect(socket.closedWith).toBeNull();
  pass(11_000);
  expect(socket.closedWith).toBe(4422);
});

test("[SRV-6] while something waits, each change costs what waits with it", async () => {
  const { join } = openRooms({ bytesPerSecond: 1000, gapBytes: 1_000_000 });
  const { connection, socket } = await join("karim");
  const phone = createWriter();
  phone.set("lost", 1);
  connection.receive(updateFrame(phone.set("card", "x".repeat(25_000))));
  for (let i = 0; i < 2; i++) connection.receive(updateFrame(phone.set("card", i)));
  expect(socket.closedWith).toBeNull();
  connection.receive(updateFrame(phone.set("card", "last")));
  expect(socket.closedWith).toBe(4529);
});

test("[SRV-3] one struct that claims 2^52 changes closes its sender, and so does a skip over as many", async () => {
  for (const info of [0, SKIP]) {
    const { join, storage } = openRooms();
    const { connection, socket } = await join("karim");
    expect(Y.decodeUpdate(oneStruct(0, 2 ** 52, info)).structs).toHaveLength(1);
    connection.receive(updateFrame(oneStruct(0, 2 ** 52, info)));
    expect([socket.closedWith, await storage.load("fuses")]).toEqual([4400, []]);
  }
});

test("an update with a skip in it is taken as it is: what is before the skip now, what is behind it when the gap fills", async () => {
  const { join, storage } = openRooms();
  const { connection, socket } = await join("anneli");
  const phone = createWriter();
  const [first, second, third] = [phone.set("a", 1), phone.set("b", 2), phone.set("c", 3)];
  connection.receive(updateFrame(Y.mergeUpdates([first, third])));
  expect(await storage.load("fuses")).toHaveLength(1);
  connection.receive(updateFrame(second));
  await expect
    .poll(() => framesTo(socket).filter((kind) => kind === "acknowledgement").length)
    .toBeGreaterThan(0);
  const last = acknowledgementFrame(Y.encodeStateVector(new Map([[1, 3]])));
  await expect.poll(() => socket.sent.at(-1)).toEqual(last);
  const reader = await join("priya");
  reader.connection.receive(ASK_FOR_ALL);
  expect(documentAt(reader.socket).getMap("cards").toJSON()).toEqual({ a: 1, b: 2, c: 3 });
});
