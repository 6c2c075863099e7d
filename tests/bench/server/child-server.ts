/** A measured server in a process of its own. */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { readdirSync, readFileSync } from "node:fs";
import { connect, createServer } from "node:net";
import { setTimeout as wait } from "node:timers/promises";
import type { Peer } from "./peers.ts";

/** What the system says of a process (proc(5)). */
export interface Usage {
  readonly cpuMs: number;
  readonly rssMb: number;
  /** Most it ever had. */
  readonly peakMb: number;
  /** Open files and sockets. */
  readonly files: number;
}

export interface ChildServer {
  readonly child: ChildProcess;
  /** `ws://127.0.0.1:port` */
  readonly origin: string;
  readonly usage: () => Usage;
  /** Asks it to stop, or cuts it off with SIGKILL; resolves when it is gone. */
  readonly stop: (signal?: "SIGTERM" | "SIGKILL") => Promise<void>;
}

const START_MS = 20_000;
const STOP_MS = 15_000;

export interface StartOptions {
  readonly peer: Peer;
  /** Folder of our bundled programs. */
  readonly bundled: string;
  /** Folder for all that the server keeps. */
  readonly data: string;
  /** Node's own. */
  readonly flags?: readonly string[];
  readonly env?: Readonly<Record<string, string>>;
}

/** Starts a peer; resolves once its port answers, rejects when it ends before. */
export const startPeer = async ({
  peer,
  bundled,
  data,
  flags = [],
  env,
}: StartOptions): Promise<ChildServer> => {
  const port = await freePort();
  const child = spawn(process.execPath, [...flags, peer.program(bundled)], {
    cwd: data,
    env: {
      PATH: process.env.PATH ?? "",
      NODE_ENV: "production",
      PORT: String(port),
      DATA: data,
      ...peer.env?.(data),
      ...env,
    },
    stdio: ["ignore", "ignore", "ignore", "ipc"],
  });
  const ended = once(child, "exit");
  const giveUp = performance.now() + START_MS;
  while (!(await answers(port))) {
    if (child.exitCode !== null || performance.now() > giveUp) {
      child.kill("SIGKILL");
      throw new Error(`${peer.title} did not start.`);
    }
    await wait(20);
  }
  const stop: ChildServer["stop"] = async (signal = "SIGTERM") => {
    child.kill(signal);
    const late = setTimeout(() => child.kill("SIGKILL"), STOP_MS);
    await ended;
    clearTimeout(late);
  };
  return { child, origin: `ws://127.0.0.1:${port}`, usage: () => usageOf(child.pid ?? 0), stop };
};

const freePort = (): Promise<number> =>
  new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const address = probe.address();
      const port = typeof address === "object" && address !== null ? address.port : 0;
      probe.close(() => resolve(port));
    });
  });

const answers = (port: number): Promise<boolean> =>
  new Promise((resolve) => {
    const socket = connect(port, "127.0.0.1");
    socket.once("connect", () => resolve(true));
    socket.once("error", () => resolve(false));
    socket.once("connect", () => socket.destroy());
  });

const TICK_MS = 10;

const usageOf = (pid: number): Usage => {
  const fields = readFileSync(`/proc/${pid}/stat`, "utf8").split(") ").at(-1)?.split(" ") ?? [];
  const status = readFileSync(`/proc/${pid}/status`, "utf8");
  const mb = (name: string): number => Number(new RegExp(`${name}:\\s+(\\d+)`).exec(status)?.[1]) / 1024;
  return {
    // Fields 14 and 15: user and system time in clock ticks.
    cpuMs: (Number(fields[11]) + Number(fields[12])) * TICK_MS,
    rssMb: mb("VmRSS"),
    peakMb: mb("VmHWM"),
    files: readdirSync(`/proc/${pid}/fd`).length,
  };
};
