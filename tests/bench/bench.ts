/**
 * `npm run bench` measures readiness, the server, the client and a gig in a browser; `npm run bench -- server` only that part,
 * `-- soak 10` the server under ten minutes of coming and going. What follows a part's name goes to its program; a run
 * that measures only some of a part is shown and not kept.
 */
import { spawn } from "node:child_process";
import { once } from "node:events";
import { createInterface } from "node:readline";
import { browserPart } from "./browser-part.ts";
import { gigPart } from "./gig-part.ts";
import { machineWith, othersBusy } from "./machine.ts";
import type { Line, Part } from "./part.ts";
import { readinessPart } from "./readiness-part.ts";
import { keep, sectionOf, writeResults } from "./results.ts";
import { seasonPart } from "./season-part.ts";
import { serverPart } from "./server-part.ts";
import { soakPart } from "./soak-part.ts";

const PARTS: readonly Part[] = [readinessPart, serverPart, seasonPart, browserPart, gigPart, soakPart];

/** Runs a measuring program, shows what it prints as it comes, and gives the lines of JSON in it. */
const measure = async ({ program }: Part, args: readonly string[]): Promise<readonly Line[]> => {
  console.log(`== ${program}`);
  const child = spawn(process.execPath, ["tests/run.mjs", `tests/bench/${program}`, ...args], {
    stdio: ["ignore", "pipe", "inherit"],
  });
  const lines: Line[] = [];
  const ended = once(child, "exit");
  for await (const line of createInterface(child.stdout)) {
    console.log(line);
    if (line.startsWith("{")) lines.push(JSON.parse(line) as Line);
  }
  const [status] = await ended;
  if (status !== 0) throw new Error(`${program} ended with ${status}.`);
  return lines;
};

const [, , wanted, ...args] = process.argv;
const chosen = PARTS.filter(({ name, always }) => (wanted === undefined ? always : name === wanted));
if (chosen.length === 0) {
  console.error(`There is no part ${wanted}: ${PARTS.map(({ name }) => name).join(", ")}.`);
  process.exit(2);
}
const missed: string[] = [];
for (const part of chosen) {
  const before = await othersBusy();
  const lines = await measure(part, args);
  const machine = machineWith(Math.max(before, await othersBusy()));
  const kept = { date: new Date().toISOString().slice(0, 10), machine, lines };
  if (part.partial?.(args) !== true) keep(part, kept);
  console.log(`\n${sectionOf(part, kept)}\n`);
  for (const { what, reached } of part.show(lines).figures)
    if (!reached) missed.push(`${part.title}: ${what}`);
}
writeResults(PARTS);
console.log(missed.length === 0 ? "Every budget is reached." : `Not reached:\n  ${missed.join("\n  ")}`);
console.log("All figures: tests/bench/RESULTS.md");
process.exit(0);
