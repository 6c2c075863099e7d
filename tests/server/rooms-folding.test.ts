import { expect, test } from "vitest";
import * as Y from "yjs";
import { updateFrame } from "#server/rooms/frames.ts";
import { StorageRefusal } from "#server/storage/storage.ts";
import { finishedMigrations, SCHEMA } from "#shared/document/migrations/migrate.ts";
import { createFaultyStorage } from "#tests/support/faulty-storage.ts";
import { ASK_FOR_ALL, createWriter, documentAt, openRooms } from "#tests/support/room-test.ts";

const turn = (): Promise<void> => new Promise((done) => setImmediate(done));

/** Rooms with a device that ticks, and what the storage holds. */
const openTicking = async (changes = {}, storage = createFaultyStorage()) => {
  const setup = openRooms(changes, storage);
  const phone = createWriter(1);
  const { connection, socket } = await setup.join("anneli");
  let n = 0;
  const tick = (times: number): void => {
    for (let i = 0; i < times; i++) connection.receive(updateFrame(phone.set(`card-${n % 7}`, n++)));
  };
  const usage = () => storage.usage("fuses");
  const pass = async (ms: number): Promise<void> => {
    for (let left = ms; left > 0; left -= 1000) {
      setup.pass(Math.min(left, 1000));
      await turn();
    }
  };
  return { ...setup, phone, connection, socket, tick, usage, pass };
};

test("[SRV-5] rows are folded once enough have gathered, in a quiet moment, and nothing is lost", async () => {
  const { tick, usage, pass, phone, storage, rooms, metrics } = await openTicking({ foldRows: 10 });
  tick(9);
  await pass(5000);
  expect(await usage()).toMatchObject({ rows: 9, archivedRows: 0 });
  tick(1);
  await pass(5000);
  // The release's migrations are noted in a document of their own row first.
  expect(await usage()).toMatchObject({ rows: 0, archivedRows: 11 });
  const [snapshot] = await storage.load("fuses");
  expect(snapshot?.snapshot?.schema).toBe(SCHEMA);
  const doc = new Y.Doc();
  Y.applyUpdate(doc, snapshot?.bytes ?? new Uint8Array());
  expect(doc.getMap("cards").toJSON()).toEqual(phone.doc.getMap("cards").toJSON());
  expect([...(snapshot?.snapshot?.stateVector ?? [])]).toEqual([...Y.encodeStateVector(doc)]);
  tick(3);
  expect(await usage()).toMatchObject({ rows: 3, archivedRows: 11 });
  expect(await rooms.read("fuses", (board) => finishedMigrations(board).size)).toBe(SCHEMA);
  expect(metrics.render()).toContain("tightrow_folding_seconds_count 1");
});

test("[SRV-5] bytes count as rows do", async () => {
  const { connection, usage, pass, phone } = await openTicking({ foldBytes: 5000 });
  connection.receive(updateFrame(phone.set("card", "x".repeat(6000))));
  await pass(2000);
  expect(await usage()).toMatchObject({ rows: 0 });
});

test("[SRV-5] while somebody plays on, folding waits, but not for ever", async () => {
  const { tick, usage, rooms, phone } = await openTicking({ foldRows: 10 });
  for (let rows = 0; rows < 39; rows++) {
    tick(1);
    rooms.tick();
    await turn();
  }
  expect(await usage()).toMatchObject({ rows: 39 });
  tick(1);
  rooms.tick();
  await turn();
  await turn();
  expect((await usage()).rows).toBeLessThan(2);
  expect(phone.doc.getMap("cards").size).toBe(7);
});

test("[SRV-5] a board is folded when its last device has left, if that is worth it", async () => {
  for (const [changes, folded] of [
    [25, true],
    [5, false],
  ] as const) {
    const { tick, connection, usage, pass, rooms } = await openTicking();
    tick(changes);
    connection.left();
    await pass(70_000);
    expect(rooms.gauges.boards).toBe(0);
    expect((await usage()).archivedRows > 0).toBe(folded);
  }
});

test("[SRV-5] a folding that fails leaves everything as it was, the board goes on, and it is tried again later", async () => {
  const storage = createFaultyStorage();
  let full = true;
  const refusing = {
    ...storage,
    compact: (...args: Parameters<typeof storage.compact>) =>
      full ? Promise.reject(new StorageRefusal("database or disk is full")) : storage.compact(...args),
  };
  const { tick, usage, pass, events, socket, join, phone } = await openTicking({ foldRows: 10 }, refusing);
  tick(12);
  await pass(20_000);
  expect(await usage()).toMatchObject({ rows: 13, archivedRows: 0 });
  expect(events.filter((event) => event === "not-folded")).toHaveLength(1);
  tick(1);
  full = false;
  await pass(70_000);
  expect(await usage()).toMatchObject({ rows: 0, archivedRows: 14 });
  expect(socket.closedWith).toBeNull();
  const reader = await join("priya");
  reader.connection.receive(ASK_FOR_ALL);
  await expect
    .poll(() => documentAt(reader.socket).getMap("cards").toJSON())
    .toEqual(phone.doc.getMap("cards").toJSON());
});

test("[SRV-5] a board that cannot be folded is let go all the same", async () => {
  const storage = createFaultyStorage();
  const refusing = { ...storage, compact: () => Promise.reject(new StorageRefusal("full")) };
  const { tick, connection, pass, rooms, usage } = await openTicking({}, refusing);
  tick(30);
  connection.left();
  await pass(70_000);
  expect(rooms.gauges.boards).toBe(0);
  expect((await usage()).rows).toBeGreaterThanOrEqual(30);
});

test("[SRV-5] what waits behind a gap is not in the snapshot", async () => {
  const { connection, phone, pass, storage } = await openTicking({ foldRows: 1 });
  connection.receive(updateFrame(phone.set("a", 1)));
  phone.set("lost", 1);
  connection.receive(updateFrame(phone.set("b", 1)));
  await pass(2000);
  const [snapshot] = await storage.load("fuses");
  const doc = new Y.Doc();
  Y.applyUpdate(doc, snapshot?.bytes ?? new Uint8Array());
  expect([doc.getMap("cards").toJSON(), doc.store.pendingStructs]).toEqual([{ a: 1 }, null]);
});

test("[SRV-5] changes that come while the snapshot waits for the disk are rows after it", async () => {
  const storage = createFaultyStorage();
  let release: () => void = () => undefined;
  const slow = {
    ...storage,
    async compact(...args: Parameters<typeof storage.compact>) {
      const stored = storage.compact(...args);
      await new Promise<void>((done) => {
        release = done;
      });
      await stored;
    },
  };
  const { tick, pass, rooms, usage } = await openTicking({ foldRows: 10 }, slow);
  tick(10);
  await pass(2000);
  tick(2);
  expect((await rooms.open("fuses")).kept.busy).toBe(true);
  release();
  await turn();
  const { tailRows, bytes } = (await rooms.open("fuses")).kept.facts;
  expect(tailRows).toBe(2);
  expect(await usage()).toMatchObject({ rows: 2, bytes });
});
