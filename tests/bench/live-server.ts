/**
 * The servers that workload A measures, in a process of their own: `tightrow` is the real server on SQLite with an
 * access policy that lets everybody in; `floor` only passes frames on, without documents and without a disk.
 * Prints its port and lives until its standard input ends.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { WebSocket, WebSocketServer } from "ws";
import { createLog } from "#server/log.ts";
import { createTightrowServer } from "#server/server.ts";
import { readSettings } from "#server/settings/settings.ts";
import { openSqliteStorage } from "#server/storage/sqlite-storage.ts";
import { openAccess } from "#tests/support/open-access.ts";

interface Measured {
  readonly port: number;
  readonly stop: () => Promise<void>;
}

const startTightrow = async (): Promise<Measured> => {
  const folder = mkdtempSync(join(tmpdir(), "tightrow-bench-"));
  const storage = await openSqliteStorage(folder);
  const settings = readSettings({ TIGHTROW_DEMO: "off" });
  if (!settings.ok) throw new Error(settings.error.join(" "));
  const server = createTightrowServer({
    storage,
    access: openAccess,
    settings: { ...settings.value, client: folder },
    log: createLog("silent", () => {}, Date.now),
    clock: Date.now,
  });
  await server.listen(0, "127.0.0.1");
  return {
    port: server.address?.port ?? 0,
    stop: async () => {
      await server.close();
      await storage.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
};

const startFloor = (): Promise<Measured> =>
  new Promise((resolve) => {
    const server = new WebSocketServer({ port: 0, host: "127.0.0.1" });
    server.on("connection", (socket) => {
      socket.on("message", (frame, binary) => {
        for (const other of server.clients) {
          if (other !== socket && other.readyState === WebSocket.OPEN) other.send(frame, { binary });
        }
      });
    });
    server.on("listening", () => {
      const address = server.address();
      const port = typeof address === "object" && address !== null ? address.port : 0;
      resolve({ port, stop: async () => server.close() });
    });
  });

const measured = await (process.argv[2] === "floor" ? startFloor() : startTightrow());
process.stdout.write(`${measured.port}\n`);
process.stdin.on("end", () => void measured.stop().then(() => process.exit(0)));
process.stdin.resume();
