/**
 * Workload A: one board (the demo band's), six clients, one of them marks a detail every 100 ms. Latency runs from
 * the command to the moment the mark is read on another client's document. The raw floor is measured in the same
 * run with the same clients, commands and documents, so that the difference is what the server costs.
 * `node tests/run.mjs tests/bench/live.ts [seconds]` prints one JSON line per peer.
 */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { readFileSync } from "node:fs";
import { setTimeout as wait } from "node:timers/promises";
import { WebSocket } from "ws";
import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import { idsFrom } from "#shared/commands/command.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { MESSAGE } from "#shared/protocol/messages.ts";
import { offeredSubprotocols } from "#shared/protocol/version.ts";

const CLIENTS = 6;
const EVERY_MS = 100;
const SECONDS = Number(process.argv[2] ?? 20);
const WARM_UP = 30;

interface Client {
  readonly doc: Y.Doc;
  readonly stop: () => void;
}

const startServer = async (
  name: string,
): Promise<{ readonly child: ChildProcess; readonly port: number }> => {
  const child = spawn(process.execPath, ["tests/run.mjs", "tests/bench/live-server.ts", name], {
    stdio: ["pipe", "pipe", "inherit"],
  });
  if (child.stdout === null) throw new Error("no output");
  const [line] = (await once(child.stdout, "data")) as [Buffer];
  return { child, port: Number(line.toString().trim()) };
};

const seeded = (() => {
  const doc = new Y.Doc();
  seedDemo(doc, Date.now(), "Europe/Lisbon");
  return Y.encodeStateAsUpdate(doc);
})();

/** A client of the real server: the stock provider, synced. */
const joinTightrow = async (port: number): Promise<Client> => {
  const doc = new Y.Doc();
  const provider = new WebsocketProvider(`ws://127.0.0.1:${port}/sync`, "bench", doc, {
    WebSocketPolyfill: WebSocket as unknown as typeof globalThis.WebSocket,
    protocols: offeredSubprotocols("leader"),
    disableBc: true,
  });
  // Acknowledgements are part of the traffic; nothing here waits for them.
  provider.messageHandlers[MESSAGE.acknowledgement] = () => {};
  await new Promise<void>((resolve) => provider.once("sync", () => resolve()));
  return { doc, stop: () => provider.destroy() };
};

/** A client of the floor: starts with the whole board and passes its updates on raw. */
const joinFloor = async (port: number): Promise<Client> => {
  const doc = new Y.Doc();
  Y.applyUpdate(doc, seeded);
  const socket = new WebSocket(`ws://127.0.0.1:${port}`);
  await once(socket, "open");
  socket.on("message", (frame: Buffer) => Y.applyUpdate(doc, new Uint8Array(frame), socket));
  doc.on("update", (update: Uint8Array, origin: unknown) => {
    if (origin !== socket) socket.send(update);
  });
  return { doc, stop: () => socket.close() };
};

const cpuMs = (pid: number | undefined): number => {
  const fields = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ")[1]?.split(" ") ?? [];
  // Fields 14 and 15 of proc(5): user and system time in clock ticks of 10 ms.
  return (Number(fields[11]) + Number(fields[12])) * 10;
};

const percentile = (sorted: readonly number[], share: number): number =>
  Number((sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN).toFixed(2));

const measure = async (name: "floor" | "tightrow"): Promise<void> => {
  const { child, port } = await startServer(name);
  const join = name === "floor" ? joinFloor : joinTightrow;
  const clients: Client[] = [];
  for (let i = 0; i < CLIENTS; i++) {
    clients.push(await join(port));
    // The first client of an empty board brings the demo band along.
    if (i === 0 && name === "tightrow") Y.applyUpdate(clients[0]?.doc ?? new Y.Doc(), seeded);
  }
  await wait(1000);
  const [first, ...others] = clients;
  if (first === undefined) throw new Error("no client");
  const runner = createRunner(createBoardDocument(first.doc));
  const cards = [...runner.board().songs.values()].flatMap((file) => file.cards.map(({ id }) => id));
  const started = new Map<string, number>();
  const latencies: number[] = [];
  for (const { doc } of others) {
    doc.getMap<{ at: number }>("statuses").observe((event) => {
      for (const key of event.keysChanged) {
        const begun = started.get(`${key} ${doc.getMap<{ at: number }>("statuses").get(key)?.at}`);
        if (begun !== undefined) latencies.push(performance.now() - begun);
      }
    });
  }
  const tick = (n: number): void => {
    const card = cards[(n * 37) % cards.length] ?? "";
    const id = `bench-${n}`;
    const author = { member: "demo-tomasz", writer: "bench", role: "leader" as const };
    const begun = performance.now();
    const now = Date.now() + n;
    // The mark's time tells the receivers which tick they see.
    const key = `${card}/demo-tomasz/bench ${Math.max(now, 0)}`;
    if (n >= WARM_UP) started.set(key, begun);
    runner.run(
      markDetail,
      { card, member: "demo-tomasz", level: ((n % 3) + 1) as 1 | 2 | 3 },
      { id, now, author, newId: idsFrom(id) },
    );
  };
  const total = WARM_UP + (SECONDS * 1000) / EVERY_MS;
  const begin = performance.now();
  let cpuBefore = 0;
  for (let n = 0; n < total; n++) {
    if (n === WARM_UP) cpuBefore = cpuMs(child.pid);
    await wait(Math.max(0, begin + n * EVERY_MS - performance.now()));
    tick(n);
  }
  await wait(1000);
  const sorted = latencies.sort((a, b) => a - b);
  process.stdout.write(
    `${JSON.stringify({
      workload: "A",
      peer: name,
      clients: CLIENTS,
      ticks: total - WARM_UP,
      expected: (total - WARM_UP) * (CLIENTS - 1),
      seen: sorted.length,
      p50: percentile(sorted, 0.5),
      p99: percentile(sorted, 0.99),
      serverCpuPercent: Number(((cpuMs(child.pid) - cpuBefore) / (SECONDS * 10)).toFixed(1)),
    })}\n`,
  );
  for (const client of clients) client.stop();
  child.stdin?.end();
  await once(child, "exit");
};

await measure("floor");
await measure("tightrow");
process.exit(0);
