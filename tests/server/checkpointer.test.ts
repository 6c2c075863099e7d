import { statSync } from "node:fs";
import { join } from "node:path";
import { expect, onTestFinished, test } from "vitest";
import { openSqliteStorage } from "#server/storage/sqlite-storage.ts";
import { newDataFolder } from "#tests/support/built-server.ts";

const update = (i: number) => ({
  document: "fuses",
  device: "a-phone",
  member: null,
  at: i,
  bytes: new Uint8Array(100).fill(i % 251),
});

test("[SRV-1] the log is folded back beside the server's work, and every row is there afterwards", async () => {
  const folder = await newDataFolder();
  const storage = await openSqliteStorage(folder);
  onTestFinished(() => storage.close());
  const database = (): number => statSync(join(folder, "tightrow.db")).size;
  const before = database();
  let rows = 0;
  // Without a checkpoint the rows stay in the log and the database does not grow.
  await expect
    .poll(async () => {
      for (let i = 0; i < 1500; i++) storage.append(update(rows++));
      await storage.flush();
      return database();
    })
    .toBeGreaterThan(before);
  expect(rows).toBeGreaterThan(4000);
  await storage.close();

  const again = await openSqliteStorage(folder);
  onTestFinished(() => again.close());
  const stored = await again.load("fuses");
  expect(stored.map(({ at }) => at)).toEqual(Array.from({ length: rows }, (_, i) => i));
});
