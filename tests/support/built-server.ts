import { type ChildProcess, spawn } from "node:child_process";
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { build } from "vite";
import { onTestFinished } from "vitest";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));
const CONFIG = join(ROOT, "server/vite.config.ts");

/**
 * Bundles the product's server exactly as `npm run build` does, into a folder of its own; resolves to the program's
 * path. Call it in `beforeAll`: Node 20 cannot run TypeScript, and this takes less than a second.
 */
export const buildServer = async (): Promise<string> => {
  // Below node_modules, so that the bundle finds the packages it leaves outside.
  const outDir = await mkdtemp(join(ROOT, "node_modules/.cache/server-"));
  await build({ configFile: CONFIG, logLevel: "error", build: { outDir, sourcemap: false } });
  return join(outDir, "main.js");
};

/** A server in a process of its own. */
export interface ServerProcess {
  readonly child: ChildProcess;
  readonly out: () => string;
  readonly err: () => string;
  /** Resolves to the port once it listens; rejects with what it said when it ends before. */
  readonly listening: Promise<number>;
  /** Resolves when the process has ended. */
  readonly ended: Promise<{ readonly code: number | null; readonly signal: NodeJS.Signals | null }>;
}

/** Starts a built server on a free port, unless `env` says otherwise. It is killed when the test ends. */
export const spawnServer = (
  program: string,
  env: Record<string, string>,
  args: readonly string[] = [],
): ServerProcess => {
  const base = {
    PATH: process.env.PATH ?? "",
    TIGHTROW_PORT: "0",
    TIGHTROW_HOST: "127.0.0.1",
    TIGHTROW_DEMO: "off",
  };
  const child = spawn(process.execPath, [program, ...args], { env: { ...base, ...env }, stdio: "pipe" });
  let out = "";
  let err = "";
  const ended = new Promise<{ code: number | null; signal: NodeJS.Signals | null }>((resolve) =>
    child.on("close", (code, signal) => resolve({ code, signal })),
  );
  const listening = new Promise<number>((resolve, reject) => {
    child.stdout.on("data", (data: Buffer) => {
      out += data.toString();
    });
    child.stderr.on("data", (data: Buffer) => {
      err += data.toString();
      const line = err.split("\n").find((text) => text.includes('"listening"'));
      if (line !== undefined) resolve(Number(JSON.parse(line).port));
    });
    void ended.then(() => reject(new Error(`The server ended: ${err}${out}`)));
  });
  listening.catch(() => undefined);
  onTestFinished(() => void child.kill("SIGKILL"));
  return { child, out: () => out, err: () => err, listening, ended };
};

/** A folder for one test's data. */
export const newDataFolder = async (): Promise<string> => {
  const folder = await mkdtemp(join(tmpdir(), "tightrow-data-"));
  onTestFinished(() => rm(folder, { recursive: true, force: true }));
  return folder;
};
