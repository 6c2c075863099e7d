/**
 * The program: reads the settings from the environment, starts the server, stops it on SIGTERM and SIGINT.
 * Human lines go to stdout, JSON log lines to stderr. Exit codes: 0 stopped as asked, 1 could not start or broke.
 */
import process from "node:process";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import { whyOf } from "./log.ts";
import { helpText, readSettings, unknownSettings } from "./settings/settings.ts";
import { type Running, start } from "./start/start.ts";

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

const main = async (): Promise<void> => {
  if (process.argv.includes("--help")) {
    process.stdout.write(helpText());
    return;
  }
  const settings = readSettings(process.env);
  if (!settings.ok) return fail(settings.error);
  for (const name of unknownSettings(process.env))
    process.stderr.write(`There is no setting ${name}; --help lists them all.\n`);
  const running = await start(settings.value, seedDemo);
  if (!running.ok) return fail([running.error]);
  process.stdout.write(running.value.greeting);
  stopOn(running.value);
};

await main();
