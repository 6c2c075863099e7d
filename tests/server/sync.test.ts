import { describe, expect, onTestFinished, test } from "vitest";
import * as Y from "yjs";
import { openSqliteStorage } from "#server/storage/sqlite-storage.ts";
import { createBoard, joinAs } from "#tests/support/boards.ts";
import { newDataFolder } from "#tests/support/built-server.ts";
import { connectStock } from "#tests/support/stock-client.ts";
import { startTestServer } from "#tests/support/test-server.ts";

describe("two devices on one board", () => {
  test("see each other's changes as they happen", async () => {
    const server = await startTestServer();
    const leader = await createBoard(server.origin);
    const member = await joinAs(server.origin, leader, "member");
    const laptop = connectStock(server.syncUrl, leader.board, leader.token);
    const phone = connectStock(server.syncUrl, member.board, member.token);
    await Promise.all([laptop.synced, phone.synced]);
    laptop.set("intro", "open");
    await phone.sees("intro", "open");
    phone.set("intro", "noticed");
    await laptop.sees("intro", "noticed");
  });

  test("what was written before connecting arrives when they connect", async () => {
    const server = await startTestServer();
    const leader = await createBoard(server.origin);
    const offline = new Y.Doc();
    offline.getMap("cards").set("bridge", "practised");
    connectStock(server.syncUrl, leader.board, leader.token, offline);
    const phone = connectStock(server.syncUrl, leader.board, leader.token);
    await phone.sees("bridge", "practised");
  });

  test("another board's changes stay there", async () => {
    const server = await startTestServer();
    const [ours, theirs] = [await createBoard(server.origin), await createBoard(server.origin)];
    const our = connectStock(server.syncUrl, ours.board, ours.token);
    const their = connectStock(server.syncUrl, theirs.board, theirs.token);
    await Promise.all([our.synced, their.synced]);
    our.set("intro", "ours");
    their.set("outro", "theirs");
    await Promise.all([our.saved(), their.saved()]);
    expect(our.get("outro")).toBeUndefined();
    expect(their.get("intro")).toBeUndefined();
  });
});

test("a board is read from storage again after everybody has left", async () => {
  const server = await startTestServer({ settings: { idleSeconds: 0 } });
  const leader = await createBoard(server.origin);
  const first = connectStock(server.syncUrl, leader.board, leader.token);
  await first.synced;
  first.set("intro", "locked in");
  await first.saved();
  first.stop();
  const second = connectStock(server.syncUrl, leader.board, leader.token);
  await second.sees("intro", "locked in");
});

test("[SRV-7] a stock device gets a whole board from its snapshot and the rows after it, and the server never reads the document", async () => {
  const folder = await newDataFolder();
  const storage = await openSqliteStorage(folder);
  onTestFinished(() => storage.close());
  const first = await startTestServer({ storage, settings: { foldRows: 20 } });
  const leader = await createBoard(first.origin);
  const phone = connectStock(first.syncUrl, leader.board, leader.token);
  await phone.synced;
  for (let i = 0; i < 20; i++) phone.set(`card-${i}`, "noticed");
  await phone.saved();
  first.advance(1000);
  await expect.poll(async () => (await storage.usage(leader.board)).rows, { timeout: 5000 }).toBe(0);
  for (let i = 20; i < 23; i++) phone.set(`card-${i}`, "noticed");
  await phone.saved();
  phone.stop();

  const second = await startTestServer({ storage });
  const newcomer = connectStock(second.syncUrl, leader.board, leader.token);
  await newcomer.synced;
  expect(newcomer.doc.getMap("cards").size).toBe(23);
  newcomer.askDurable([phone.doc.clientID]);
  await expect.poll(() => newcomer.durable.get(phone.doc.clientID)).toBe(23);
  const documents = async () =>
    /^tightrow_documents_in_memory (\d+)$/m.exec(await (await fetch(`${second.origin}/metrics`)).text())?.[1];
  expect(await documents()).toBe("0");
  newcomer.set("intro", "noticed");
  await newcomer.saved();
  expect(await documents()).toBe("1");
});

test("each stored update says which device and person it came from, and when", async () => {
  const server = await startTestServer();
  const leader = await createBoard(server.origin);
  const phone = connectStock(server.syncUrl, leader.board, leader.token);
  await phone.synced;
  phone.set("intro", "noticed");
  await phone.saved();
  const rows = await server.storage.load(leader.board);
  expect(rows).toHaveLength(1);
  expect(rows[0]?.device).toMatch(/^[\w-]{16}$/);
  expect(rows[0]?.at).toBe(Date.UTC(2031, 4, 6, 18, 30));
});

test("a change the server has already is not stored again", async () => {
  const server = await startTestServer();
  const leader = await createBoard(server.origin);
  const phone = connectStock(server.syncUrl, leader.board, leader.token);
  await phone.synced;
  phone.set("intro", "noticed");
  phone.set("intro", "practised");
  await phone.saved();
  const stored = (await server.storage.load(leader.board)).length;
  // The same document from another connection: its reply to the server repeats all deletions it knows of.
  const copy = new Y.Doc();
  Y.applyUpdate(copy, Y.encodeStateAsUpdate(phone.doc));
  const again = connectStock(server.syncUrl, leader.board, leader.token, copy);
  await again.synced;
  again.set("outro", "noticed");
  await again.saved();
  expect(await server.storage.load(leader.board)).toHaveLength(stored + 1);
});

describe("a guest", () => {
  test("sees the board and its changes", async () => {
    const server = await startTestServer();
    const leader = await createBoard(server.origin);
    const laptop = connectStock(server.syncUrl, leader.board, leader.token);
    await laptop.synced;
    laptop.set("intro", "noticed");
    await laptop.saved();
    const guest = await joinAs(server.origin, leader, "guest");
    const screen = connectStock(server.syncUrl, guest.board, guest.token);
    await screen.sees("intro", "noticed");
    laptop.set("outro", "noticed");
    await screen.sees("outro", "noticed");
  });

  test("[SRV-2] who writes is sent away for good, and nobody sees what they wrote", async () => {
    const server = await startTestServer();
    const leader = await createBoard(server.origin);
    const laptop = connectStock(server.syncUrl, leader.board, leader.token);
    const guest = await joinAs(server.origin, leader, "guest");
    const screen = connectStock(server.syncUrl, guest.board, guest.token);
    await Promise.all([laptop.synced, screen.synced]);
    const closed = screen.closed();
    screen.set("intro", "vandalised");
    expect(await closed).toBe(4403);
    expect(screen.provider.shouldConnect).toBe(false);
    laptop.set("outro", "noticed");
    await laptop.saved();
    expect(laptop.get("intro")).toBeUndefined();
    expect(await server.storage.load(leader.board)).toHaveLength(1);
  });
});
