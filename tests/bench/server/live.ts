import { setTimeout as wait } from "node:timers/promises";
import type * as Y from "yjs";
import { idsFrom } from "#shared/commands/command.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { cardOf, chairOf } from "#tests/support/seed-full.ts";
import { BenchClient } from "./bench-client.ts";
import { BOARDS } from "./boards.ts";
import { covers, epochNow, percentile, rounded, seed, stateVectorOf, until } from "./measuring.ts";
import type { WorkloadRun } from "./workload.ts";

const CLIENTS = 6;
const EVERY_MS = 100;
const WARM_UP = 30;

export interface LiveFigures {
  readonly p50: number;
  readonly p99: number;
  readonly seen: number;
  readonly expected: number;
  /** Of one core. */
  readonly cpuPercent: number;
}

/**
 * A: one full board, six clients with documents, one of them marks a detail every 100 ms. Latency runs from the command
 * to the moment another client's document has the mark; all clients share a thread, so the floor is not zero.
 */
export const live = async ({ peer, start, boardOf, seconds }: WorkloadRun): Promise<LiveFigures> => {
  const server = await start();
  const bytes = boardOf("full");
  const where = { origin: server.origin, board: "live", dialect: peer.dialect };
  const seeder = peer.dialect.keepsDocuments ? await seed(where, bytes) : null;
  const clients = await Promise.all(
    Array.from({ length: CLIENTS }, () =>
      BenchClient.connect(peer.dialect.keepsDocuments ? where : { ...where, known: bytes }),
    ),
  );
  const wanted = stateVectorOf(bytes);
  await until("the board on all clients", () => clients.every(({ doc }) => covers(doc, wanted)));
  await seeder?.close();

  const latencies: number[] = [];
  let from = Number.POSITIVE_INFINITY;
  const [first, ...others] = clients;
  if (first === undefined) throw new Error("no client");
  for (const { doc } of others) {
    const statuses = doc.getMap<{ at: number }>("statuses");
    statuses.observe(({ keysChanged }) => {
      for (const key of keysChanged) {
        const at = statuses.get(key)?.at ?? 0;
        if (at >= from) latencies.push(epochNow() - at);
      }
    });
  }

  const tick = ticker(first.doc);
  const total = WARM_UP + (seconds * 1000) / EVERY_MS;
  const begun = performance.now();
  let cpuBefore = 0;
  for (let n = 0; n < total; n++) {
    if (n === WARM_UP) {
      from = epochNow();
      cpuBefore = server.usage().cpuMs;
    }
    await wait(Math.max(0, begun + n * EVERY_MS - performance.now()));
    tick(n);
  }
  const expected = (total - WARM_UP) * (CLIENTS - 1);
  // Whatever is missing after this is reported as not seen.
  await until("all ticks", () => latencies.length >= expected, 5000).catch(() => undefined);
  const cpuMs = server.usage().cpuMs - cpuBefore;
  for (const client of clients) client.kill();
  await server.stop();
  return {
    p50: percentile(latencies, 0.5),
    p99: percentile(latencies, 0.99),
    seen: latencies.length,
    expected,
    cpuPercent: rounded(cpuMs / (seconds * 10)),
  };
};

/** The leader marks one detail after the other; the mark's `at` is the moment of the command. */
const ticker = (doc: Y.Doc): ((n: number) => void) => {
  const runner = createRunner(createBoardDocument(doc));
  const { cards, chairs } = BOARDS.full;
  return (n) => {
    const card = (n * 37) % cards;
    const member = chairOf(card % chairs).replace("chair", "person");
    const id = `tick-${n}`;
    const author = { member, writer: "bench", role: "leader" } as const;
    const level = ((n % 3) + 1) as 1 | 2 | 3;
    const done = runner.run(
      markDetail,
      { card: cardOf(card), member, level },
      { id, now: epochNow(), author, newId: idsFrom(id) },
    );
    if (!done.ok) throw new Error(done.error.sentence);
  };
};
