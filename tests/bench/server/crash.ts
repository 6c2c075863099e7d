import { setTimeout as wait } from "node:timers/promises";
import * as Y from "yjs";
import { cardOf, memberOf } from "#tests/support/seed-full.ts";
import { BenchClient } from "./bench-client.ts";
import { BOARDS } from "./boards.ts";
import { covers, epochNow, seed, stateVectorOf, until } from "./measuring.ts";
import type { WorkloadRun } from "./workload.ts";

const RUNS = 8;
const EVERY_MS = 20;
/** The board itself must be safe before the run begins; some peers write seconds later. */
const SETTLE_MS = 4000;

export interface CrashFigures {
  readonly runs: number;
  readonly sent: number;
  readonly acknowledged: number;
  /** Acknowledged and gone; 0 of 0 says nothing. */
  readonly acknowledgedLost: number;
  /** Seen by another client. */
  readonly seen: number;
  readonly seenLost: number;
}

interface Run {
  readonly sent: number;
  readonly acknowledged: number;
  readonly acknowledgedLost: number;
  readonly seen: number;
  readonly seenLost: number;
}

/**
 * D: the server is killed (SIGKILL) eight times while a client ticks every 20 ms and another one watches. What the server
 * had acknowledged, and what the watcher had seen, is looked for by a client that knows nothing after a new start.
 */
export const crash = async (run: WorkloadRun): Promise<CrashFigures> => {
  const runs: Run[] = [];
  for (let n = 0; n < RUNS; n++) runs.push(await crashOnce(run, n));
  const sum = (of: keyof Run): number => runs.reduce((total, one) => total + one[of], 0);
  return {
    runs: RUNS,
    sent: sum("sent"),
    acknowledged: sum("acknowledged"),
    acknowledgedLost: sum("acknowledgedLost"),
    seen: sum("seen"),
    seenLost: sum("seenLost"),
  };
};

const crashOnce = async ({ peer, start, reset, boardOf }: WorkloadRun, run: number): Promise<Run> => {
  await reset();
  const bytes = boardOf("small");
  const wanted = stateVectorOf(bytes);
  const first = await start();
  const where = { origin: first.origin, board: "crash", dialect: peer.dialect };
  const seeder = await seed(where, bytes);
  await wait(SETTLE_MS);
  await seeder.close();
  await wait(1000);

  const safe = countSafe();
  const writer = await BenchClient.connect({ ...where, onSafe: safe.hear });
  const watcher = await BenchClient.connect(where);
  await until("the board", () => [writer, watcher].every(({ doc }) => covers(doc, wanted)));
  await wait(300);
  safe.begin(writer.doc);

  let sent = 0;
  const end = performance.now() + 1500 + ((run * 977) % 3000);
  for (; performance.now() < end; sent++) {
    safe.expect();
    tick(writer.doc, sent);
    await wait(EVERY_MS);
  }
  const acknowledged = safe.count();
  const seen = ticksIn(watcher.doc).size;
  await first.stop("SIGKILL");
  writer.kill();
  watcher.kill();

  const second = await start();
  const reader = await BenchClient.connect({ ...where, origin: second.origin });
  await reader.synced;
  // A peer may say "synced" before it has read its disk.
  await wait(2000);
  const kept = ticksIn(reader.doc);
  reader.kill();
  await second.stop("SIGKILL");
  const missing = (count: number): number =>
    Array.from({ length: count }, (_, n) => n).filter((n) => !kept.has(n)).length;
  return {
    sent,
    acknowledged,
    acknowledgedLost: missing(acknowledged),
    seen,
    seenLost: missing(seen),
  };
};

const TICK = /\/tick-(\d+)$/;

const tick = (doc: Y.Doc, n: number): void => {
  const key = `${cardOf(n % BOARDS.small.cards)}/${memberOf(0)}/tick-${n}`;
  doc.getMap("statuses").set(key, { level: 1, from: 0, anchor: 0, fromAnchor: 0, at: epochNow() });
};

const ticksIn = (doc: Y.Doc): ReadonlySet<number> => {
  const found = new Set<number>();
  for (const key of doc.getMap("statuses").keys()) {
    const n = TICK.exec(key)?.[1];
    if (n !== undefined) found.add(Number(n));
  }
  return found;
};

/** Counts acknowledged ticks, whether they come as clocks or one by one. */
const countSafe = () => {
  let doc: Y.Doc | null = null;
  let waiting: number[] = [];
  let count = 0;
  const settle = (many: number): void => {
    count += Math.min(many, waiting.length);
    waiting = waiting.slice(many);
  };
  return {
    hear: (safe: { readonly changes: number } | { readonly upTo: ReadonlyMap<number, number> }): void => {
      if (doc === null) return;
      if ("changes" in safe) settle(safe.changes);
      else {
        const clock = safe.upTo.get(doc.clientID) ?? 0;
        settle(waiting.filter((at) => at < clock).length);
      }
    },
    begin: (of: Y.Doc): void => {
      doc = of;
    },
    /** The next change will be waited for. */
    expect: (): void => {
      if (doc !== null) waiting.push(Y.getState(doc.store, doc.clientID));
    },
    count: () => count,
  };
};
