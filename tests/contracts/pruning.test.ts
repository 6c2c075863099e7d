import { expect, test } from "vitest";
import type { Log } from "#server/log.ts";
import { createMemoryStorage } from "#server/storage/memory-storage.ts";
import { createPruning } from "#server/storage/pruning.ts";
import { StorageRefusal } from "#server/storage/storage.ts";
import { snapshot, update } from "./records.ts";

const DAY_MS = 86_400_000;

const setup = (days: number, prune?: () => Promise<number>) => {
  const storage = createMemoryStorage();
  const events: string[] = [];
  const note = (event: string): void => void events.push(event);
  const log: Log = { info: note, warn: note, error: note };
  let now = 100 * DAY_MS;
  const run = createPruning(prune === undefined ? storage : { prune }, days, log, () => now);
  return {
    storage,
    events,
    run: async (): Promise<void> => {
      run();
      await new Promise((done) => setImmediate(done));
    },
    pass: (ms: number): void => {
      now += ms;
    },
  };
};

test("archived changes older than the setting are forgotten, once a day", async () => {
  const { storage, events, run, pass } = setup(30);
  const rows = [60, 69, 71].map((day) => storage.append({ ...update("fuses", day), at: day * DAY_MS }));
  for (const upTo of rows.slice(-2))
    await storage.compact("fuses", snapshot(rows.at(-1) ?? upTo, 200, 99 * DAY_MS));
  await run();
  await run();
  expect(events).toEqual(["archive-pruned"]);
  const left = async () => (await storage.history("fuses", {})).map(({ at }) => at / DAY_MS);
  expect(await left()).toEqual([71]);
  pass(DAY_MS - 1);
  await run();
  expect(events).toHaveLength(1);
  pass(2 * DAY_MS);
  await run();
  expect([events.length, await left()]).toEqual([2, []]);
});

test("with 0 days changes are kept for ever", async () => {
  let asked = 0;
  const { run, pass } = setup(0, async () => {
    asked += 1;
    return 0;
  });
  await run();
  pass(400 * DAY_MS);
  await run();
  expect(asked).toBe(0);
});

test("a disk that refuses is reported, and asked again the next day", async () => {
  const { events, run, pass } = setup(30, () =>
    Promise.reject(new StorageRefusal("database or disk is full")),
  );
  await run();
  pass(DAY_MS);
  await run();
  expect(events).toEqual(["archive-not-pruned", "archive-not-pruned"]);
});
