/** The server's clock is set a year forward and back, as by a machine that wakes without a battery. */
import { describe, expect, test } from "vitest";
import * as Y from "yjs";
import { createRateBound } from "#server/api/rate-bound.ts";
import type { RoomBounds } from "#server/rooms/bounds.ts";
import { updateFrame } from "#server/rooms/frames.ts";
import { RoomRegistry } from "#server/rooms/room-registry.ts";
import { createSteadyClock } from "#server/steady-clock.ts";
import { createMemoryStorage } from "#server/storage/memory-storage.ts";
import { call } from "#tests/support/api-client.ts";
import { createBoard, createLink, joinAs, refusal } from "#tests/support/boards.ts";
import { createFakeFrameSocket } from "#tests/support/fake-frame-socket.ts";
import { turn } from "#tests/support/fake-network.ts";
import { sessionOn } from "#tests/support/open-access.ts";
import { roomBounds, roomParts } from "#tests/support/room-parts.ts";
import { connectStock } from "#tests/support/stock-client.ts";
import { startTestServer } from "#tests/support/test-server.ts";

const MINUTE = 60_000;
const YEAR = 365 * 24 * 60 * MINUTE;

test("time that is measured moves on with the clock and never back", () => {
  let now = 5 * YEAR;
  const steady = createSteadyClock(() => now);
  expect(steady()).toBe(5 * YEAR);
  now += MINUTE;
  expect(steady()).toBe(5 * YEAR + MINUTE);
  now -= YEAR;
  expect(steady()).toBe(5 * YEAR + MINUTE);
  now += 1;
  expect(steady()).toBe(5 * YEAR + MINUTE + 1);
});

test("[SRV-3] nobody's minute lasts a year when the clock is set back, and a flood stays bounded", () => {
  let now = 5 * YEAR;
  const mayTry = createRateBound(3, () => now);
  const tries = (n: number): readonly boolean[] => Array.from({ length: n }, () => mayTry("192.0.2.1"));
  expect(tries(4)).toEqual([true, true, true, false]);
  now -= YEAR;
  expect(tries(1), "setting it back opens nothing").toEqual([false]);
  now += MINUTE;
  expect(tries(4)).toEqual([true, true, true, false]);
  now += YEAR;
  expect(tries(4)).toEqual([true, true, true, false]);
});

const roomsAt = (clock: () => number, bounds: Partial<RoomBounds> = {}) => {
  const storage = createMemoryStorage();
  const rooms = new RoomRegistry({
    storage,
    ...roomParts({ clock, idleMs: MINUTE, bounds: roomBounds(bounds) }),
  });
  return { storage, rooms };
};

/** Two changes of one device, one after the other. */
const twoChanges = (): readonly [Uint8Array, Uint8Array] => {
  const ydoc = new Y.Doc();
  const sent: Uint8Array[] = [];
  ydoc.on("update", (update: Uint8Array) => void sent.push(update));
  for (const title of ["Marzipan Diesel", "Umbrella Season"]) ydoc.getMap("songs").set("one/title", title);
  return sent as unknown as readonly [Uint8Array, Uint8Array];
};

describe("[SRV-3] a clock that is set a year back", () => {
  test("keeps no idle board in memory for a year", async () => {
    let now = 5 * YEAR;
    const { rooms } = roomsAt(() => now);
    (await rooms.open("fuses")).join(createFakeFrameSocket(), sessionOn("fuses")).left();
    now -= YEAR;
    rooms.tick();
    expect(rooms.gauges.boards).toBe(1);
    now += MINUTE;
    rooms.tick();
    expect(rooms.gauges.boards).toBe(0);
  });

  test("lets no gap stay open for a year", async () => {
    let now = 5 * YEAR;
    const { rooms } = roomsAt(() => now);
    const socket = createFakeFrameSocket();
    const [, second] = twoChanges();
    (await rooms.open("fuses")).join(socket, sessionOn("fuses")).receive(updateFrame(second));
    now -= YEAR;
    rooms.tick();
    expect(socket.closedWith).toBeNull();
    now += MINUTE;
    rooms.tick();
    expect(socket.closedWith).toBe(4422);
  });

  test("folds boards in quiet moments as before", async () => {
    let now = 5 * YEAR;
    const { rooms, storage } = roomsAt(() => now, { foldRows: 1 });
    const device = (await rooms.open("fuses")).join(createFakeFrameSocket(), sessionOn("fuses"));
    device.receive(updateFrame(twoChanges()[0]));
    await turn();
    now -= YEAR;
    rooms.tick();
    now += 1000;
    rooms.tick();
    await turn();
    expect((await storage.load("fuses"))[0]?.snapshot).not.toBeNull();
  });
});

test("[SRV-2] [SYNC-1] devices go on through a clock set a year back and forth, and what had ended has ended again", async () => {
  const server = await startTestServer();
  const { origin, syncUrl } = server;
  const leader = await createBoard(origin);
  const [anneli, priya] = [await joinAs(origin, leader, "member"), await joinAs(origin, leader, "member")];
  const soon = Date.UTC(2031, 4, 7);
  const { secret } = await createLink(origin, leader, "member", { expiresAt: soon });
  const [left, right] = [anneli, priya].map(({ token }) => connectStock(syncUrl, leader.document, token));
  if (left === undefined || right === undefined) throw new Error("No devices");
  await Promise.all([left.synced, right.synced]);
  const steps = [YEAR, -YEAR, -YEAR, YEAR, 2 * 24 * 60 * MINUTE];
  for (const [n, step] of steps.entries()) {
    server.advance(step);
    left.set("intro", `left ${n}`);
    await right.sees("intro", `left ${n}`);
    right.set("ending", `right ${n}`);
    await left.sees("ending", `right ${n}`);
    await Promise.all([left.saved(), right.saved()]);
    expect((await call(origin, "GET /api/session", { bearer: anneli.token })).status).toBe(200);
    expect((await call(origin, "GET /api/devices", { bearer: leader.token })).status).toBe(200);
  }
  expect(await refusal(origin, "POST /api/join", { bearer: secret })).toMatchObject({
    status: 410,
    error: "link-expired",
  });
});
