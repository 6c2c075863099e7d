import { rm } from "node:fs/promises";
import { dirname, join } from "node:path";
import Database from "better-sqlite3";
import { afterAll, beforeAll, expect, test } from "vitest";
import * as Y from "yjs";
import type { BoardGrant } from "#shared/protocol/api.ts";
import { createBoard } from "#tests/support/boards.ts";
import { buildServer, newDataFolder, type ServerProcess, spawnServer } from "#tests/support/built-server.ts";
import { connectStock, type StockClient } from "#tests/support/stock-client.ts";

const KILLS = 8;
const FOLD_KILLS = 10;
const CLIENTS = 4;
/** Acknowledged ticks of all clients before the server is killed; different each time, so that it dies at other points. */
const acknowledgedBefore = (kill: number): number => 60 + 37 * kill;

let program = "";

beforeAll(async () => {
  program = await buildServer();
});

afterAll(() => rm(dirname(program), { recursive: true, force: true }));

/** Ticks of one client that may wait for their acknowledgement: enough to always be in the middle of something. */
const ON_THE_WAY = 25;

/** Ticks as fast as acknowledgements come until told to stop; notes each tick that an acknowledgement covers. */
const keepTicking = (client: StockClient, name: string, acknowledged: Map<string, number>) => {
  const { doc, provider } = client;
  const waiting: { readonly key: string; readonly value: number; readonly clock: number }[] = [];
  let ticking = true;
  let ticks = 0;
  const collect = (): void => {
    const durable = client.ownDurable();
    for (let next = waiting[0]; next !== undefined && next.clock <= durable; next = waiting[0]) {
      acknowledged.set(next.key, next.value);
      waiting.shift();
    }
  };
  const tick = (): void => {
    if (!ticking) return;
    collect();
    if (waiting.length < ON_THE_WAY) {
      const key = `${name}/${ticks % 50}`;
      client.set(key, ticks);
      waiting.push({ key, value: ticks, clock: Y.getState(doc.store, doc.clientID) });
      ticks += 1;
    }
    setImmediate(tick);
  };
  tick();
  return {
    stop: (): void => {
      ticking = false;
      provider.disconnect();
      collect();
    },
  };
};

/** As fast as this, nobody ticks: the bounds are not what is tried here. */
const UNBOUNDED = {
  TIGHTROW_FRAMES_PER_SECOND: "1000000",
  TIGHTROW_BOARD_FRAMES_PER_SECOND: "1000000",
  TIGHTROW_LOG: "info",
};

interface Rounds {
  readonly kills: number;
  readonly env: Record<string, string>;
  /** Written by the first device of each round before it ticks. */
  readonly ballast?: string;
  /** Resolves at the moment to kill. */
  readonly moment: (server: ServerProcess, durable: () => number, kill: number) => Promise<void>;
}

/** Kills the server again and again while devices tick; answers how many acknowledged ticks a restart did not have. */
const killAgainAndAgain = async ({
  kills,
  env,
  ballast,
  moment,
}: Rounds): Promise<{
  readonly lost: number;
  readonly board: BoardGrant | null;
}> => {
  const acknowledged = new Map<string, number>();
  let board: BoardGrant | null = null;
  let lost = 0;
  for (let kill = 0; kill < kills; kill++) {
    const server = spawnServer(program, env);
    const origin = `http://127.0.0.1:${await server.listening}`;
    const syncUrl = `${origin.replace("http", "ws")}/sync`;
    board ??= await createBoard(origin);
    const { board: id, token } = board;
    const clients = Array.from({ length: CLIENTS }, () => connectStock(syncUrl, id, token));
    await Promise.all(clients.map(({ synced }) => synced));
    if (ballast !== undefined) clients[0]?.set("ballast", ballast);
    const ticking = clients.map((client, i) => keepTicking(client, `${kill}-${i}`, acknowledged));
    await moment(server, () => clients.reduce((sum, client) => sum + client.ownDurable(), 0), kill);
    server.child.kill("SIGKILL");
    await server.ended;
    for (const one of ticking) one.stop();
    for (const client of clients) client.stop();

    // Only the disk answers: a fresh device on the restarted server, none of the old ones is there to help.
    const restarted = spawnServer(program, env);
    const again = `ws://127.0.0.1:${await restarted.listening}/sync`;
    const reader = connectStock(again, id, token);
    await reader.synced;
    for (const [key, value] of acknowledged) if (Number(reader.get(key) ?? -1) < value) lost += 1;
    reader.stop();
    restarted.child.kill("SIGKILL");
    await restarted.ended;
  }
  expect(acknowledged.size).toBeGreaterThan(0);
  return { lost, board };
};

test(`[SYNC-2] killed ${KILLS} times while ${CLIENTS} devices tick, the server has every acknowledged tick after each restart`, async () => {
  const env = { ...UNBOUNDED, TIGHTROW_DATA: await newDataFolder() };
  const { lost } = await killAgainAndAgain({
    kills: KILLS,
    env,
    moment: (_, durable, kill) =>
      expect.poll(durable, { interval: 1, timeout: 15_000 }).toBeGreaterThan(acknowledgedBefore(kill)),
  });
  expect(lost).toBe(0);
}, 120_000);

/** Rows of the log and of its archive, by place, and what SQLite says of its file. */
const storedIn = (folder: string) => {
  const db = new Database(join(folder, "tightrow.db"), { readonly: true });
  const places = db.prepare("SELECT seq FROM archive UNION ALL SELECT seq FROM updates ORDER BY seq").pluck();
  const snapshots = db.prepare("SELECT count(*) FROM snapshots").pluck();
  const found = {
    places: places.all() as number[],
    snapshots: Number(snapshots.get()),
    integrity: db.pragma("integrity_check", { simple: true }),
  };
  db.close();
  return found;
};

test(`[SYNC-2] [SRV-5] killed ${FOLD_KILLS} times while it folds a board, the server has every acknowledged tick and every row`, async () => {
  const data = await newDataFolder();
  // Rows enough for a folding every second, although nobody is ever quiet.
  const env = { ...UNBOUNDED, TIGHTROW_DATA: data, TIGHTROW_FOLD_ROWS: "10" };
  let midway = 0;
  const { lost, board } = await killAgainAndAgain({
    kills: FOLD_KILLS,
    env,
    ballast: "x".repeat(2_000_000),
    moment: async (server, durable, kill) => {
      await expect.poll(durable, { interval: 1, timeout: 15_000 }).toBeGreaterThan(50);
      const before = count(server.err(), "folding");
      await expect
        .poll(() => count(server.err(), "folding"), { interval: 1, timeout: 15_000 })
        .toBeGreaterThan(before);
      // A few milliseconds more each time: while it is written out, while rows move, while the disk is synced.
      const until = performance.now() + 3 * kill;
      await expect.poll(() => performance.now(), { interval: 1 }).toBeGreaterThan(until);
      if (count(server.err(), "folded") < count(server.err(), "folding")) midway += 1;
    },
  });
  expect(lost).toBe(0);
  expect(midway).toBeGreaterThan(0);

  // Every server may have died before it was done: one more is left alone until it has folded what the others left.
  const last = spawnServer(program, env);
  const syncUrl = `ws://127.0.0.1:${await last.listening}/sync`;
  const client = connectStock(syncUrl, board?.board ?? "", board?.token ?? "");
  await client.synced;
  client.set("last", "word");
  await expect.poll(() => count(last.err(), "folded"), { timeout: 15_000 }).toBeGreaterThan(0);
  client.stop();
  last.child.kill("SIGTERM");
  await last.ended;
  const { places, snapshots, integrity } = storedIn(data);
  expect(integrity).toBe("ok");
  expect(snapshots).toBeGreaterThan(0);
  // SQLite gives out each place once (AUTOINCREMENT), so a row that got lost or doubled would show.
  expect(places).toEqual(Array.from(places, (_, i) => i + 1));
}, 240_000);

const count = (lines: string, event: string): number => lines.split(`"event":"${event}"`).length - 1;
