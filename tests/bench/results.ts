/**
 * Each part keeps what it measured last in `results/<part>.json`; RESULTS.md is written from all of them, so that one
 * part can be measured anew without the others.
 */
import { existsSync, mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { resolve } from "node:path";
import type { Machine } from "./machine.ts";
import type { Line, Part } from "./part.ts";

export interface Kept {
  /** Day of the measurement. */
  readonly date: string;
  readonly machine: Machine;
  readonly lines: readonly Line[];
}

const FOLDER = resolve("tests/bench");
const pathOf = ({ name }: Part): string => resolve(FOLDER, "results", `${name}.json`);

export const keep = (part: Part, kept: Kept): void => {
  mkdirSync(resolve(FOLDER, "results"), { recursive: true });
  writeFileSync(pathOf(part), `${JSON.stringify(kept, null, 2)}\n`);
};

/** What was kept of a part; null when it was never measured. */
export const kept = (part: Part): Kept | null =>
  existsSync(pathOf(part)) ? (JSON.parse(readFileSync(pathOf(part), "utf8")) as Kept) : null;

/** Writes RESULTS.md from everything that is kept. */
export const writeResults = (parts: readonly Part[]): void => {
  const sections = parts.flatMap((part) => {
    const found = kept(part);
    return found === null ? [] : [sectionOf(part, found)];
  });
  writeFileSync(
    resolve(FOLDER, "RESULTS.md"),
    `# Benchmark\n\nWritten by \`npm run bench\`; each part says when and where it was measured.\n\n${sections.join("\n\n")}\n`,
  );
};

export const sectionOf = (part: Part, { date, machine, lines }: Kept): string => {
  const { cores, cpu, gib, node, othersPercent } = machine;
  const busy = othersPercent > 10 ? ": times are above what it can do" : "";
  const on = `${cores} cores, ${cpu}, ${gib} GiB, Node ${node}; others used ${othersPercent} % of them before or after`;
  return `## ${part.title}\n\nMeasured on ${date}. ${on}${busy}.\n\n${part.show(lines).markdown}`;
};
