import { setTimeout as wait } from "node:timers/promises";
import { BenchClient } from "./bench-client.ts";
import { covers, percentile, seed, stateVectorOf, until } from "./measuring.ts";
import type { WorkloadRun } from "./workload.ts";

const JOINS = 5;
/** Some peers write a board down only seconds after it came. */
const SETTLE_MS = 5000;

export interface JoinFigures {
  readonly documentBytes: number;
  /** Until the document had everything, and until the server said so; ms, median of five. */
  readonly complete: number;
  readonly slowest: number;
  readonly synced: number;
  readonly bytesIn: number;
  /** Of the server, from its start to the end of the join. */
  readonly cpuMs: number;
  readonly peakMb: number;
}

/** C: a client without anything joins a board of three years on a server that has just been started. */
export const join = async ({ peer, start, boardOf }: WorkloadRun): Promise<JoinFigures> => {
  const bytes = boardOf("threeYears");
  const wanted = stateVectorOf(bytes);
  const first = await start();
  const seeder = await seed({ origin: first.origin, board: "old", dialect: peer.dialect }, bytes);
  await wait(SETTLE_MS);
  await seeder.close();
  await wait(SETTLE_MS);
  await first.stop();

  const joins: { complete: number; synced: number; bytesIn: number; cpuMs: number; peakMb: number }[] = [];
  for (let n = 0; n < JOINS; n++) {
    const server = await start();
    const cpuBefore = server.usage().cpuMs;
    const client = await BenchClient.connect({ origin: server.origin, board: "old", dialect: peer.dialect });
    let complete: number | null = null;
    const look = (): void => {
      if (complete === null && covers(client.doc, wanted)) complete = performance.now() - client.begun;
    };
    client.doc.on("afterAllTransactions", look);
    await until("the whole document", () => complete !== null);
    await client.synced;
    const { cpuMs, peakMb } = server.usage();
    joins.push({
      complete: complete ?? Number.NaN,
      synced: client.syncedAfter ?? Number.NaN,
      bytesIn: client.bytesIn,
      cpuMs: cpuMs - cpuBefore,
      peakMb,
    });
    await client.close();
    await server.stop();
  }
  const median = (of: (join: (typeof joins)[number]) => number): number => percentile(joins.map(of), 0.5);
  return {
    documentBytes: bytes.length,
    complete: median(({ complete }) => complete),
    slowest: percentile(
      joins.map(({ complete }) => complete),
      1,
    ),
    synced: median(({ synced }) => synced),
    bytesIn: joins[0]?.bytesIn ?? Number.NaN,
    cpuMs: median(({ cpuMs }) => cpuMs),
    peakMb: Math.round(median(({ peakMb }) => peakMb)),
  };
};
