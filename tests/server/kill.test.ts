import { rm } from "node:fs/promises";
import { dirname } from "node:path";
import { afterAll, beforeAll, expect, test } from "vitest";
import * as Y from "yjs";
import type { BoardGrant } from "#shared/protocol/api.ts";
import { createBoard } from "#tests/support/boards.ts";
import { buildServer, newDataFolder, spawnServer } from "#tests/support/built-server.ts";
import { connectStock, type StockClient } from "#tests/support/stock-client.ts";

const KILLS = 8;
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

test(`[SYNC-2] killed ${KILLS} times while ${CLIENTS} devices tick, the server has every acknowledged tick after each restart`, async () => {
  const env = { TIGHTROW_DATA: await newDataFolder(), TIGHTROW_LOG: "info" };
  const acknowledged = new Map<string, number>();
  let board: BoardGrant | null = null;
  let lost = 0;

  for (let kill = 0; kill < KILLS; kill++) {
    const server = spawnServer(program, env);
    const origin = `http://127.0.0.1:${await server.listening}`;
    const syncUrl = `${origin.replace("http", "ws")}/sync`;
    board ??= await createBoard(origin);
    const { board: id, token } = board;
    const clients = Array.from({ length: CLIENTS }, () => connectStock(syncUrl, id, token));
    await Promise.all(clients.map(({ synced }) => synced));
    const ticking = clients.map((client, i) => keepTicking(client, `${kill}-${i}`, acknowledged));
    const durable = (): number => clients.reduce((sum, client) => sum + client.ownDurable(), 0);
    await expect.poll(durable, { interval: 1, timeout: 15_000 }).toBeGreaterThan(acknowledgedBefore(kill));
    server.child.kill("SIGKILL");
    await server.ended;
    for (const one of ticking) one.stop();
    for (const client of clients) client.stop();
    for (const client of clients) expect(client.ownDurable()).toBeGreaterThan(0);

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
  expect(lost).toBe(0);
}, 120_000);
