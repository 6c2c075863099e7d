/**
 * The real server on SQLite with its default settings, composed as the program does it but for an access policy that
 * lets everybody in. Reads PORT, DATA and the server's own settings. Answers any message from its parent with what it
 * holds.
 */
import { createLog } from "#server/log.ts";
import { createTightrowServer } from "#server/server.ts";
import { readSettings } from "#server/settings/settings.ts";
import { keepHeapTight } from "#server/start/tight-heap.ts";
import { openSqliteStorage } from "#server/storage/sqlite-storage.ts";
import { openAccess } from "#tests/support/open-access.ts";

keepHeapTight();
const folder = process.env.DATA ?? "";
const settings = readSettings({ ...process.env, TIGHTROW_DEMO: "off" });
if (!settings.ok) throw new Error(settings.error.join(" "));
const storage = await openSqliteStorage(folder);
const server = createTightrowServer({
  storage,
  access: openAccess,
  settings: { ...settings.value, client: folder },
  log: createLog(settings.value.log, (line) => process.stderr.write(line), Date.now),
  clock: Date.now,
});
await server.listen(Number(process.env.PORT), "127.0.0.1");

process.on("SIGTERM", async () => {
  await server.close();
  await storage.close();
  process.exit(0);
});
process.on("message", () => {
  // Only what is still referred to counts; `gc` is there when the parent asked Node to expose it.
  globalThis.gc?.();
  const { heapUsed, external } = process.memoryUsage();
  process.send?.({
    heapMb: (heapUsed + external) / 2 ** 20,
    handles: process.getActiveResourcesInfo().length,
  });
});
