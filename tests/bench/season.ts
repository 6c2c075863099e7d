/**
 * What squashing saves on a band's document after three years: 60 songs × 8 chairs × 10 details, 72,000 changes of a
 * status and 10,000 takes in 900 visits, each a Yjs client of its own.
 * `node tests/run.mjs tests/bench/season.ts` prints one JSON line per document; times are milliseconds of one core.
 */
import { readFileSync } from "node:fs";
import { isDeepStrictEqual } from "node:util";
import { deflateRawSync } from "node:zlib";
import * as Y from "yjs";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { readBoard } from "#shared/document/read/board-reader.ts";
import { entriesOf, squash } from "#shared/document/squash.ts";
import { differingScores } from "#tests/support/all-scores.ts";
import { documentOf } from "#tests/support/document-fixtures.ts";
import { threeYears } from "./server/three-years.ts";

const LOADS = 9;
const CLIENT = 1;
const cpu = /model name\s*: (.*)/.exec(readFileSync("/proc/cpuinfo", { encoding: "utf8" }))?.[1] ?? "unknown";

const round = (value: number): number => Number(value.toFixed(1));

const timed = <T>(work: () => T): { readonly ms: number; readonly result: T } => {
  const start = performance.now();
  const result = work();
  return { ms: performance.now() - start, result };
};

const summary = (times: readonly number[]): { best: number; p50: number } => {
  const sorted = [...times].sort((a, b) => a - b);
  return { best: round(sorted[0] ?? Number.NaN), p50: round(sorted[sorted.length >> 1] ?? Number.NaN) };
};

const structsOf = (ydoc: Y.Doc): number =>
  [...ydoc.store.clients.values()].reduce((total, structs) => total + structs.length, 0);

interface Loads {
  readonly apply: number[];
  readonly read: number[];
}

const load = (update: Uint8Array, { apply, read }: Loads): void => {
  const { ms, result } = timed(() => documentOf(update));
  apply.push(ms);
  read.push(timed(() => readBoard(createBoardDocument(result))).ms);
  result.destroy();
};

const measure = (state: string, update: Uint8Array, { apply, read }: Loads) => {
  const ydoc = documentOf(update);
  return {
    bench: "season",
    node: process.version,
    cpu,
    state,
    bytes: update.length,
    deflated: deflateRawSync(update).length,
    clients: ydoc.store.clients.size,
    structs: structsOf(ydoc),
    stateVectorBytes: Y.encodeStateVector(ydoc).length,
    keys: entriesOf(createBoardDocument(ydoc)).length,
    apply: summary(apply),
    read: summary(read),
  };
};

const print = (line: object): void => console.log(JSON.stringify(line));

const built = timed(threeYears);
const squashing = Array.from({ length: 5 }, () => {
  const ydoc = documentOf(built.result);
  return timed(() => squash(ydoc, CLIENT));
});
const fresh = squashing.at(-1)?.result ?? new Uint8Array();
const noLoads = (): Loads => ({ apply: [], read: [] });
const documents = [
  { state: "grown", update: built.result, loads: noLoads() },
  { state: "squashed", update: fresh, loads: noLoads() },
];
// In turn, so that a busy moment of the machine meets both.
for (let n = 0; n < LOADS; n++) for (const { update, loads } of documents) load(update, loads);
for (const { state, update, loads } of documents) print(measure(state, update, loads));

const [before, after] = [built.result, fresh].map((update) =>
  readBoard(createBoardDocument(documentOf(update))),
);
if (before === undefined || after === undefined) throw new Error("There is nothing to compare.");
print({
  bench: "season",
  state: "compared",
  build: round(built.ms),
  squash: summary(squashing.map(({ ms }) => ms)),
  sameBoard: isDeepStrictEqual(before, after),
  differingScores: differingScores(before, after, Date.UTC(2026, 0, 1)).length,
});
