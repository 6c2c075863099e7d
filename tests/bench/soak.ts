/**
 * The server under coming and going: 200 boards, clients that join, tick and leave, for so many minutes.
 * `node tests/run.mjs tests/bench/soak.ts [minutes]` prints a JSON line every ten seconds and a verdict at the end.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as wait } from "node:timers/promises";
import { BOARDS } from "./server/boards.ts";
import { bundlePrograms } from "./server/bundle.ts";
import { type ChildServer, startPeer } from "./server/child-server.ts";
import { rounded, seed } from "./server/measuring.ts";
import { PEERS } from "./server/peers.ts";
import { startVisits } from "./server/visits.ts";

const BOARD_COUNT = 200;
/** Boards nobody looks at are let go sooner than by default, so that they are loaded again and again. */
const IDLE_SECONDS = 10;
const SAMPLE_MS = 10_000;
const WARM_UP_MS = 60_000;
/** How far above its level after warming up the memory may end. */
const SLACK = { share: 1.25, mb: 20, handles: 5 };

interface Sample {
  readonly seconds: number;
  readonly phase: string;
  readonly visits: number;
  readonly rssMb: number;
  /** After a collection, with what buffers hold. */
  readonly heapMb: number;
  readonly files: number;
  /** What keeps Node's event loop busy: sockets, timers, file handles. */
  readonly handles: number;
}

const minutes = Number(process.argv[2] ?? 10);
const { dialect } = PEERS.tightrow;
const bundled = await bundlePrograms();
const data = mkdtempSync(join(tmpdir(), "tightrow-soak-"));
const begun = performance.now();
let visits = 0;
let stuck = 0;

const sample = (server: ChildServer, phase: string): Promise<Sample> =>
  new Promise((resolve) => {
    server.child.once("message", (held: { heapMb: number; handles: number }) => {
      const { rssMb, files } = server.usage();
      const taken: Sample = {
        seconds: Math.round((performance.now() - begun) / 1000),
        phase,
        visits,
        rssMb: Math.round(rssMb),
        heapMb: rounded(held.heapMb),
        files,
        handles: held.handles,
      };
      console.log(JSON.stringify(taken));
      resolve(taken);
    });
    server.child.send("what do you hold?");
  });

/** Lets clients come and go for a time, then waits until all are gone and the boards are let go. */
const churn = async (server: ChildServer, phase: string, forMs: number): Promise<Sample> => {
  const stop = startVisits({ origin: server.origin, dialect, boards: BOARD_COUNT }, (served) => {
    visits++;
    if (!served) stuck++;
  });
  const end = performance.now() + forMs;
  while (performance.now() < end) {
    await wait(Math.min(SAMPLE_MS, Math.max(0, end - performance.now())));
    await sample(server, phase);
  }
  await stop();
  await wait((IDLE_SECONDS + 5) * 1000);
  return sample(server, `after ${phase}`);
};

try {
  const server = await startPeer({
    peer: PEERS.tightrow,
    bundled,
    data,
    flags: ["--expose-gc"],
    env: { TIGHTROW_IDLE_SECONDS: String(IDLE_SECONDS) },
  });
  const board = BOARDS.small.build();
  for (let b = 0; b < BOARD_COUNT; b++)
    await (await seed({ origin: server.origin, board: `soak-${b}`, dialect }, board)).close();
  const warm = await churn(server, "warming up", Math.min(WARM_UP_MS, minutes * 30_000));
  const end = await churn(server, "soaking", minutes * 60_000);
  await server.stop();
  const within = (now: number, before: number): boolean =>
    now <= Math.max(before * SLACK.share, before + SLACK.mb);
  const verdict = {
    verdict: true,
    minutes,
    visits,
    stuck,
    warm,
    end,
    memoryReturns: within(end.rssMb, warm.rssMb) && within(end.heapMb, warm.heapMb),
    handlesReturn: end.files <= warm.files + SLACK.handles && end.handles <= warm.handles + SLACK.handles,
  };
  console.log(JSON.stringify(verdict));
} finally {
  for (const folder of [data, bundled]) rmSync(folder, { recursive: true, force: true });
}
process.exit(0);
