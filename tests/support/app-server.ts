/* The whole product as a person starts it: the built client on the built server, in a process of its own. */
import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdir, mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join, resolve } from "node:path";
import { build } from "vite";

/** Where the built product lies. */
export interface Built {
  /** Folder of the client. */
  readonly client: string;
  /** The server's program. */
  readonly server: string;
}

/** Builds client and server as `npm run build` does, below `folder`, which lies under node_modules. */
export const buildApp = async (folder: string): Promise<Built> => {
  // Vitest says "test", and Vite would build what only developers run.
  process.env.NODE_ENV = "production";
  const [client, server] = [join(folder, "client"), join(folder, "server")];
  const config = (part: string): string => resolve(part, "vite.config.ts");
  await build({ configFile: config("client"), logLevel: "error", build: { outDir: client } });
  await build({ configFile: config("server"), logLevel: "error", build: { outDir: server } });
  return { client, server: join(server, "main.js") };
};

/** A folder for a build of one run; the server finds its packages from there. */
export const newBuildFolder = async (): Promise<string> => {
  const cache = resolve("node_modules/.cache");
  await mkdir(cache, { recursive: true });
  return mkdtemp(join(cache, "app-"));
};

export interface App {
  /** `http://localhost:port`; a service worker may run there. */
  readonly address: string;
  /** Kills the server as a power cut would. */
  readonly kill: () => Promise<void>;
  /** Starts it again on the same port and the same data. */
  readonly start: () => Promise<void>;
  /** Stops it and removes its data. */
  readonly close: () => Promise<void>;
}

/** The port, once it listens. Goes on reading what the server says: a full pipe would stop it. */
const listening = (child: ChildProcess): Promise<number> =>
  new Promise((found, failed) => {
    let said = "";
    child.stderr?.on("data", (chunk: Buffer) => {
      said += chunk.toString();
      const line = said.split("\n").find((text) => text.includes('"listening"'));
      if (line !== undefined) found(Number(JSON.parse(line).port));
    });
    child.once("exit", () => failed(new Error(`The server ended: ${said}`)));
  });

/** Starts the built product on a free port with data of its own and the demo band; `env` changes settings. */
export const startApp = async (built: Built, env: Readonly<Record<string, string>> = {}): Promise<App> => {
  const data = await mkdtemp(join(tmpdir(), "tightrow-app-"));
  let child: ChildProcess;
  let port = 0;
  const start = async (): Promise<void> => {
    child = spawn(process.execPath, [built.server], {
      env: {
        PATH: process.env.PATH ?? "",
        TZ: "Europe/Lisbon",
        TIGHTROW_PORT: String(port),
        TIGHTROW_HOST: "localhost",
        TIGHTROW_DATA: data,
        TIGHTROW_CLIENT: built.client,
        // Every page of a test comes from one address.
        TIGHTROW_TRIES_PER_MINUTE: "10000",
        ...env,
      },
      stdio: ["ignore", "ignore", "pipe"],
    });
    port = await listening(child);
  };
  const end = async (signal: NodeJS.Signals): Promise<void> => {
    if (child.exitCode !== null || child.signalCode !== null) return;
    const ended = once(child, "exit");
    child.kill(signal);
    await ended;
  };
  await start();
  return {
    address: `http://localhost:${port}`,
    kill: () => end("SIGKILL"),
    start,
    close: async () => {
      await end("SIGKILL");
      await rm(data, { recursive: true, force: true });
    },
  };
};
