/** A built server that is killed and started again on one folder and one port, and its disk as each death left it. */
import { existsSync } from "node:fs";
import { copyFile, rm } from "node:fs/promises";
import { join } from "node:path";
import * as Y from "yjs";
import { DATABASE_FILE } from "#server/storage/data-folder.ts";
import { openSqliteStorage } from "#server/storage/sqlite-storage.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import { newDataFolder, type ServerProcess, spawnServer } from "./built-server.ts";

export interface KilledServer {
  readonly origin: () => string;
  /** Starts it; resolves to its address when it listens, on the same port each time unless it is to hide. */
  readonly start: (hidden?: "hidden") => Promise<string>;
  /** The process that was started last. */
  readonly process: () => ServerProcess;
  /** Starts it and does not wait. */
  readonly launch: () => ServerProcess;
  /** SIGKILL; resolves when it is dead. */
  readonly kill: () => Promise<void>;
  /** What the disk holds of a document, read from a copy: the files themselves stay as the dead server left them. */
  readonly diskOf: (document: string) => Promise<{ readonly ydoc: Y.Doc; readonly foldedTo: number }>;
}

export const createKilledServer = async (
  program: string,
  env: Readonly<Record<string, string>>,
): Promise<KilledServer> => {
  const folder = await newDataFolder();
  const copy = await newDataFolder();
  let port = 0;
  let running: ServerProcess | null = null;

  const current = (): ServerProcess => {
    if (running === null) throw new Error("The server was never started");
    return running;
  };
  const launch = (on = port): ServerProcess => {
    running = spawnServer(program, { ...env, TIGHTROW_DATA: folder, TIGHTROW_PORT: String(on) });
    return running;
  };
  return {
    origin: () => `http://127.0.0.1:${port}`,
    start: async (hidden) => {
      const found = await launch(hidden ? 0 : port).listening;
      if (!hidden) port = found;
      return `http://127.0.0.1:${found}`;
    },
    process: current,
    launch: () => launch(),
    kill: async () => {
      const { child, ended } = current();
      child.kill("SIGKILL");
      await ended;
    },
    diskOf: async (document) => {
      for (const file of [DATABASE_FILE, `${DATABASE_FILE}-wal`]) {
        await rm(join(copy, file), { force: true });
        // A server that had time to stop in order leaves no write-ahead log.
        if (existsSync(join(folder, file))) await copyFile(join(folder, file), join(copy, file));
      }
      const storage = await openSqliteStorage(copy);
      const rows = await storage.load(document);
      const ydoc = new Y.Doc();
      // Gives it all the maps that a phone's document has.
      createBoardDocument(ydoc);
      Y.transact(ydoc, () => {
        for (const { bytes } of rows) Y.applyUpdate(ydoc, bytes);
      });
      await storage.close();
      return { ydoc, foldedTo: rows[0]?.snapshot ? rows[0].seq : 0 };
    },
  };
};
