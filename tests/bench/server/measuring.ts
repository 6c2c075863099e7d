/** What all workloads share: waiting, clocks, percentiles, seeding. */
import { setTimeout as wait } from "node:timers/promises";
import * as Y from "yjs";
import { BenchClient, type ClientOptions } from "./bench-client.ts";

/** Moment (ms since 1970, with fractions) on a clock that never jumps. */
export const epochNow = (): number => performance.timeOrigin + performance.now();

/** Rounds to three significant digits. */
export const rounded = (value: number): number => Number(value.toPrecision(3));

/** The value below which `share` of all lie; not a number when there are none. */
export const percentile = (values: readonly number[], share: number): number => {
  const sorted = Float64Array.from(values).sort();
  return rounded(sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN);
};

/** Looks every few ms until `holds`; rejects with what was waited for after `limitMs`. */
export const until = async (what: string, holds: () => boolean, limitMs = 60_000): Promise<void> => {
  const giveUp = performance.now() + limitMs;
  while (!holds()) {
    if (performance.now() > giveUp) throw new Error(`Waited in vain: ${what}.`);
    await wait(5);
  }
};

/** True when the document holds everything that a state vector names. */
export const covers = (doc: Y.Doc, wanted: ReadonlyMap<number, number>): boolean => {
  for (const [client, clock] of wanted) if (Y.getState(doc.store, client) < clock) return false;
  return true;
};

export const stateVectorOf = (update: Uint8Array): ReadonlyMap<number, number> =>
  Y.decodeStateVector(Y.encodeStateVectorFromUpdate(update));

type Where = Pick<ClientOptions, "origin" | "board" | "dialect">;

/** Puts a board on the server; resolves when another client can read all of it there. */
export const seed = async (where: Where, board: Uint8Array): Promise<BenchClient> => {
  const seeder = await BenchClient.connect({ ...where, thin: () => {} });
  await seeder.synced;
  seeder.sendUpdate(board);
  const wanted = stateVectorOf(board);
  const reader = await BenchClient.connect(where);
  await until("the board on the server", () => {
    const why = seeder.why ?? reader.why;
    if (why !== null) throw new Error(`The server does not take the board: ${why}.`);
    return covers(reader.doc, wanted);
  });
  await reader.close();
  return seeder;
};
