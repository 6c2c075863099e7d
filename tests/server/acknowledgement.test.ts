import { expect, test } from "vitest";
import * as Y from "yjs";
import { createFaultyStorage } from "#tests/support/faulty-storage.ts";
import { openAccess } from "#tests/support/open-access.ts";
import { connectStock, type StockClient } from "#tests/support/stock-client.ts";
import { startTestServer } from "#tests/support/test-server.ts";

const serverOn = (storage = createFaultyStorage()) => startTestServer({ storage, access: () => openAccess });

const clockOf = (doc: Y.Doc): number => Y.getState(doc.store, doc.clientID);

/** What the product's client does when it is connected again: asks about its own changes. */
const askAtEachSync = ({ provider, doc, askDurable }: StockClient): void =>
  void provider.on("sync", () => askDurable([doc.clientID]));

test("[SYNC-2] nothing is acknowledged before the disk has it, though others see it at once", async () => {
  const storage = createFaultyStorage();
  const server = await serverOn(storage);
  const phone = connectStock(server.syncUrl, "fuses", "member");
  const laptop = connectStock(server.syncUrl, "fuses", "leader");
  await Promise.all([phone.synced, laptop.synced]);
  const release = storage.hold();
  phone.set("intro", "noticed");
  await laptop.sees("intro", "noticed");
  // Frames keep their order: with the laptop's answer here, an acknowledgement sent before it would be here too.
  laptop.set("outro", "noticed");
  await phone.sees("outro", "noticed");
  expect(phone.ownDurable()).toBe(0);
  release();
  await phone.saved();
  expect(phone.durable.get(phone.doc.clientID)).toBe(clockOf(phone.doc));
});

test("what arrives while a flush runs waits for the next one", async () => {
  const storage = createFaultyStorage();
  const server = await serverOn(storage);
  const phone = connectStock(server.syncUrl, "fuses", "member");
  const laptop = connectStock(server.syncUrl, "fuses", "leader");
  await Promise.all([phone.synced, laptop.synced]);
  const release = storage.hold();
  phone.set("intro", "noticed");
  await laptop.sees("intro", "noticed");
  const before = clockOf(phone.doc);
  const releaseNext = storage.hold();
  phone.set("outro", "noticed");
  await laptop.sees("outro", "noticed");
  release();
  await expect.poll(() => phone.durable.get(phone.doc.clientID)).toBe(before);
  releaseNext();
  await phone.saved();
});

test("an acknowledgement names the clients whose changes the connection sent, and no others", async () => {
  const server = await serverOn();
  const phone = connectStock(server.syncUrl, "fuses", "member");
  const laptop = connectStock(server.syncUrl, "fuses", "leader");
  await Promise.all([phone.synced, laptop.synced]);
  phone.set("intro", "noticed");
  laptop.set("outro", "noticed");
  await Promise.all([phone.saved(), laptop.saved()]);
  expect([...phone.durable.keys()]).toEqual([phone.doc.clientID]);
  expect([...laptop.durable.keys()]).toEqual([laptop.doc.clientID]);
});

test("a device that brings another's changes is told about both", async () => {
  const server = await serverOn();
  const doc = new Y.Doc();
  const friend = new Y.Doc();
  friend.getMap("cards").set("intro", "noticed");
  Y.applyUpdate(doc, Y.encodeStateAsUpdate(friend));
  doc.getMap("cards").set("outro", "noticed");
  const phone = connectStock(server.syncUrl, "fuses", "member", doc);
  await phone.saved();
  expect(phone.durable.get(friend.clientID)).toBe(clockOf(friend));
});

test("a device that lost its acknowledgement asks, and learns how far the disk is", async () => {
  const storage = createFaultyStorage();
  const server = await serverOn(storage);
  const doc = new Y.Doc();
  const first = connectStock(server.syncUrl, "fuses", "member", doc);
  const witness = connectStock(server.syncUrl, "fuses", "leader");
  await Promise.all([first.synced, witness.synced]);
  const release = storage.hold();
  first.set("intro", "noticed");
  await witness.sees("intro", "noticed");
  first.provider.destroy();
  release();

  const again = connectStock(server.syncUrl, "fuses", "member", doc);
  await again.synced;
  expect(again.durable.size).toBe(0);
  again.askDurable([doc.clientID, 4711]);
  await again.saved();
  expect(again.durable.get(doc.clientID)).toBe(clockOf(doc));
  expect(again.durable.get(4711)).toBe(0);
});

test("a full disk: no acknowledgement, the device is told, and all is saved once there is room", async () => {
  const storage = createFaultyStorage();
  const server = await serverOn(storage);
  const phone = connectStock(server.syncUrl, "fuses", "member");
  const laptop = connectStock(server.syncUrl, "fuses", "leader");
  await Promise.all([phone.synced, laptop.synced]);
  askAtEachSync(phone);
  storage.full = true;
  const told = phone.closed();
  phone.set("intro", "noticed");
  expect(await told).toBe(4507);
  expect(phone.durable.size).toBe(0);
  expect(laptop.get("intro")).toBeUndefined();
  const health = await fetch(`${server.origin}/healthz`);
  expect([health.status, await health.json()]).toMatchObject([503, { status: "not-storing" }]);

  storage.full = false;
  await laptop.sees("intro", "noticed");
  await phone.saved();
  const rows = await storage.load("fuses");
  expect(rows).toHaveLength(1);
  expect((await fetch(`${server.origin}/healthz`)).status).toBe(200);
});

test("what others write while the disk is full is kept on their devices and saved later", async () => {
  const storage = createFaultyStorage();
  const server = await serverOn(storage);
  const phone = connectStock(server.syncUrl, "fuses", "member");
  const tablet = connectStock(server.syncUrl, "fuses", "member");
  await Promise.all([phone.synced, tablet.synced]);
  storage.full = true;
  const told = [phone.closed(), tablet.closed()];
  phone.set("intro", "noticed");
  tablet.set("outro", "noticed");
  expect(await Promise.all(told)).toEqual([4507, 4507]);
  storage.full = false;
  const late = connectStock(server.syncUrl, "fuses", "leader");
  await Promise.all([late.sees("intro", "noticed"), late.sees("outro", "noticed")]);
});

test("a disk that fails to sync acknowledges nothing, and later all of it", async () => {
  const storage = createFaultyStorage();
  const server = await serverOn(storage);
  const phone = connectStock(server.syncUrl, "fuses", "member");
  await phone.synced;
  askAtEachSync(phone);
  storage.broken = true;
  const told = phone.closed();
  phone.set("intro", "noticed");
  expect(await told).toBe(4507);
  expect(phone.durable.size).toBe(0);
  storage.broken = false;
  await phone.saved();
});
