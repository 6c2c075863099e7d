/**
 * The program: reads the settings from the environment, starts the server, stops it on SIGTERM and SIGINT; or runs one
 * of the tools of `--help` and ends. Human lines go to stdout, JSON log lines to stderr. Exit codes: 0 stopped or done as asked, 1 could not start or broke.
 */
import process from "node:process";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import { whyOf } from "./log.ts";
import { helpText, readSettings, unknownSettings } from "./settings/settings.ts";
import { type Running, start } from "./start/start.ts";
import { keepHeapTight } from "./start/tight-heap.ts";
import { findTool, toolsHelp } from "./upkeep/tools.ts";

const fail = (sentences: readonly string[]): void => {
  process.stderr.write(`${sentences.join("\n")}\n`);
  process.exitCode = 1;
};

const stopOn = (running: Running): void => {
  let stopping = false;
  const stop = (code: CloseCode, exitCode: number): void => {
    if (stopping) return;
    stopping = true;
    void running.stop(code).then(() => process.exit(exitCode));
  };
  // A service manager restarts what it stops; a person at the keyboard means it.
  process.on("SIGTERM", () => stop(1012, 0));
  process.on("SIGINT", () => stop(1001, 0));
  process.on("uncaughtException", (error) => {
    running.log.error("uncaught", { why: whyOf(error), stack: error.stack });
    stop(1012, 1);
  });
};

/**
 * Whoever read what we print may be gone: that is no reason to stop serving. Unheard, the error would count as a mistake
 * of ours, be logged into the same broken pipe, and so on for ever.
 */
const outliveReaders = (): void => {
  for (const output of [process.stdout, process.stderr]) output.on("error", () => undefined);
};

const main = async (): Promise<void> => {
  outliveReaders();
  const [tool, ...args] = process.argv.slice(2);
  if (process.argv.includes("--help")) {
    process.stdout.write(helpText(toolsHelp()));
    return;
  }
  const settings = readSettings(process.env);
  if (!settings.ok) return fail(settings.error);
  for (const name of unknownSettings(process.env))
    process.stderr.write(`There is no setting ${name}; --help lists them all.\n`);
  if (tool !== undefined) {
    const run = findTool(tool);
    if (run === null) return fail([`There is no tool ${tool}; --help lists them all.`]);
    const done = await run({ args, settings: settings.value, now: new Date() });
    if (!done.ok) return fail([done.error]);
    process.stdout.write(`${done.value}\n`);
    return;
  }
  keepHeapTight();
  const running = await start(settings.value, seedDemo);
  if (!running.ok) return fail([running.error]);
  process.stdout.write(running.value.greeting);
  stopOn(running.value);
};

await main();
