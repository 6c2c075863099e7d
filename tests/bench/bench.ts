/**
 * `npm run bench` measures readiness, the server and the client in a browser; `npm run bench -- server` only that part,
 * `-- soak 10` the server under ten minutes of coming and going. What follows a part's name goes to its program.
 */
import { spawnSync } from "node:child_process";
import { browserPart } from "./browser-part.ts";
import { machineWith, othersBusy } from "./machine.ts";
import type { Line, Part } from "./part.ts";
import { readinessPart } from "./readiness-part.ts";
import { keep, sectionOf, writeResults } from "./results.ts";
import { serverPart } from "./server-part.ts";
import { soakPart } from "./soak-part.ts";

const PARTS: readonly Part[] = [readinessPart, serverPart, browserPart, soakPart];

/** Runs a measuring program, shows what it prints, and gives the lines of JSON in it. */
const measure = ({ program }: Part, args: readonly string[]): readonly Line[] => {
  console.log(`== ${program}`);
  const { stdout, status } = spawnSync(
    process.execPath,
    ["tests/run.mjs", `tests/bench/${program}`, ...args],
    { stdio: ["ignore", "pipe", "inherit"], maxBuffer: 2 ** 26 },
  );
  const text = stdout.toString();
  process.stdout.write(text);
  if (status !== 0) throw new Error(`${program} ended with ${status}.`);
  return text
    .split("\n")
    .filter((line) => line.startsWith("{"))
    .map((line) => JSON.parse(line) as Line);
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
  const lines = measure(part, args);
  const machine = machineWith(Math.max(before, await othersBusy()));
  const kept = { date: new Date().toISOString().slice(0, 10), machine, lines };
  keep(part, kept);
  console.log(`\n${sectionOf(part, kept)}\n`);
  for (const { what, reached } of part.show(lines).figures)
    if (!reached) missed.push(`${part.title}: ${what}`);
}
writeResults(PARTS);
console.log(missed.length === 0 ? "Every budget is reached." : `Not reached:\n  ${missed.join("\n  ")}`);
console.log("All figures: tests/bench/RESULTS.md");
process.exit(0);
