/** What a part was measured on. */
import { readFileSync } from "node:fs";
import { cpus, totalmem } from "node:os";
import { setTimeout as wait } from "node:timers/promises";

export interface Machine {
  readonly cores: number;
  readonly cpu: string;
  readonly gib: number;
  readonly node: string;
  /** How much (%) of all cores somebody else used before or after, whichever was more. */
  readonly othersPercent: number;
}

export const machineWith = (othersPercent: number): Machine => ({
  cores: cpus().length,
  cpu: /model name\s*: (.*)/.exec(readFileSync("/proc/cpuinfo", "utf8"))?.[1] ?? "unknown",
  gib: Math.round(totalmem() / 2 ** 30),
  node: process.version,
  othersPercent,
});

/** How much (%) of all cores somebody else uses now, over two seconds. */
export const othersBusy = async (): Promise<number> => {
  const before = coreTimes();
  await wait(2000);
  const after = coreTimes();
  return Math.round(100 * (1 - (after.idle - before.idle) / (after.all - before.all)));
};

const coreTimes = (): { readonly idle: number; readonly all: number } => {
  const times = cpus().map((core) => core.times);
  return {
    idle: times.reduce((sum, { idle }) => sum + idle, 0),
    all: times.flatMap((of) => Object.values(of)).reduce((sum, time) => sum + time, 0),
  };
};
