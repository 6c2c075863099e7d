import { setTimeout as wait } from "node:timers/promises";
import { cardOf, memberOf } from "#tests/support/seed-full.ts";
import { BenchClient } from "./bench-client.ts";
import { BOARDS } from "./boards.ts";
import { epochNow, percentile, rounded, seed, until } from "./measuring.ts";
import type { WorkloadRun } from "./workload.ts";

const BOARD_COUNT = 200;
const CLIENTS_PER_BOARD = 5;
const TICKS_PER_SECOND = 1000;
const WARM_UP_SECONDS = 3;
const SETTLE_MS = 4000;
/** Ticks sent without looking at what has come in. */
const BURST = 50;

export interface FleetFigures {
  readonly p50: number;
  readonly p99: number;
  readonly ticksPerSecond: number;
  readonly seen: number;
  readonly expected: number;
  /** Connections that the server had closed by the end. */
  readonly closed: number;
  /** Of one core. */
  readonly cpuPercent: number;
  readonly idleMb: number;
  /** With everybody connected, before the ticks. */
  readonly loadedMb: number;
  readonly peakMb: number;
  /** Of one core; near 100, the load itself is the limit. */
  readonly loadCpuPercent: number;
}

/** B: 200 boards with five thin clients each, all of which mark a detail once a second. */
export const fleet = async ({ peer, start, boardOf, seconds }: WorkloadRun): Promise<FleetFigures> => {
  const server = await start();
  const idleMb = server.usage().rssMb;
  const latencies: number[] = [];
  let from = Number.POSITIVE_INFINITY;
  const thin = (at: number): void => {
    if (at >= from) latencies.push(epochNow() - at);
  };
  const clients: BenchClient[] = [];
  for (let b = 0; b < BOARD_COUNT; b++) {
    const where = { origin: server.origin, board: `fleet-${b}`, dialect: peer.dialect };
    const seeder = peer.dialect.keepsDocuments ? await seed(where, boardOf("small")) : null;
    const mine = await Promise.all(
      Array.from({ length: CLIENTS_PER_BOARD }, () => BenchClient.connect({ ...where, thin })),
    );
    await Promise.all(mine.map(({ synced }) => synced));
    clients.push(...mine);
    await seeder?.close();
  }
  await wait(SETTLE_MS);
  const loadedMb = server.usage().rssMb;

  await tickAll(clients, WARM_UP_SECONDS);
  await wait(1500);
  from = epochNow();
  const cpuBefore = server.usage().cpuMs;
  const loadBefore = process.cpuUsage();
  const begun = performance.now();
  const sent = await tickAll(clients, seconds);
  const sending = performance.now() - begun;
  const expected = sent * (CLIENTS_PER_BOARD - 1);
  // Whatever is missing after this is reported as not seen.
  await until("all ticks", () => latencies.length >= expected, 15_000).catch(() => undefined);
  const took = performance.now() - begun;
  const usage = server.usage();
  const load = process.cpuUsage(loadBefore);
  const closed = clients.filter((client) => client.closed).length;
  for (const client of clients) client.kill();
  await server.stop();
  return {
    p50: percentile(latencies, 0.5),
    p99: percentile(latencies, 0.99),
    ticksPerSecond: Math.round((sent / sending) * 1000),
    seen: latencies.length,
    expected,
    closed,
    cpuPercent: rounded(((usage.cpuMs - cpuBefore) / took) * 100),
    idleMb: Math.round(idleMb),
    loadedMb: Math.round(loadedMb),
    peakMb: Math.round(usage.peakMb),
    loadCpuPercent: Math.round((load.user + load.system) / 10 / took),
  };
};

/** Ticks for so many seconds, spread evenly; resolves to how many were sent. */
const tickAll = async (clients: readonly BenchClient[], seconds: number): Promise<number> => {
  const total = seconds * TICKS_PER_SECOND;
  const begun = performance.now();
  let sent = 0;
  while (sent < total) {
    const due = Math.min(total, Math.floor(((performance.now() - begun) * TICKS_PER_SECOND) / 1000) + 1);
    for (let burst = 0; sent < due && burst < BURST; burst++) tick(clients, sent++);
    await (sent < due ? new Promise((resume) => setImmediate(resume)) : wait(1));
  }
  return total;
};

/** Walks over the clients in steps that meet all of them, and so over all boards alike. */
const tick = (clients: readonly BenchClient[], n: number): void => {
  const index = (n * 7919) % clients.length;
  const doc = clients[index]?.doc;
  const { cards, chairs } = BOARDS.small;
  const card = (n * 31) % cards;
  doc?.getMap("statuses").set(`${cardOf(card)}/${memberOf(card % chairs)}/phone-${index}`, {
    level: (n % 3) + 1,
    from: 0,
    anchor: 0,
    fromAnchor: 0,
    at: epochNow(),
  });
};
