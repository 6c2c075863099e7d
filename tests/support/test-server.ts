import { onTestFinished } from "vitest";
import type { AccessPolicy } from "#server/access/access-policy.ts";
import { createCapabilityAccess } from "#server/access/capability-access.ts";
import type { SeedDemo } from "#server/access/demo.ts";
import type { Log } from "#server/log.ts";
import { createTightrowServer } from "#server/server.ts";
import { readSettings, type Settings } from "#server/settings/settings.ts";
import { createMemoryStorage } from "#server/storage/memory-storage.ts";
import type { Storage } from "#server/storage/storage.ts";

/** A log line as a test reads it. */
export interface LogLine {
  readonly event: string;
  readonly [field: string]: unknown;
}

export interface TestServer {
  readonly storage: Storage;
  readonly port: number;
  /** `http://127.0.0.1:port` */
  readonly origin: string;
  /** Base address for the stock provider; the board's id is its room name. */
  readonly syncUrl: string;
  readonly logged: LogLine[];
  /** Moves the server's clock on, in ms. */
  advance(ms: number): void;
}

export interface TestServerOptions {
  readonly storage?: Storage;
  /** Made from the storage; the product's policy unless given. */
  readonly access?: (storage: Storage) => AccessPolicy;
  readonly settings?: Partial<Settings>;
  readonly seedDemo?: SeedDemo;
}

export const defaultSettings = (changes: Partial<Settings> = {}): Settings => {
  const settings = readSettings({});
  if (!settings.ok) throw new Error(settings.error.join(" "));
  return { ...settings.value, client: "/nowhere", ...changes };
};

/** The real server on a free port of this machine, stopped when the test ends. */
export const startTestServer = async (options: TestServerOptions = {}): Promise<TestServer> => {
  const storage = options.storage ?? createMemoryStorage();
  const logged: LogLine[] = [];
  const note = (event: string, fields: object = {}): void => void logged.push({ event, ...fields });
  const log: Log = { info: note, warn: note, error: note };
  let now = Date.UTC(2031, 4, 6, 18, 30);
  const server = createTightrowServer({
    storage,
    access: (options.access ?? createCapabilityAccess)(storage, () => now),
    settings: defaultSettings(options.settings),
    log,
    clock: () => now,
    ...(options.seedDemo === undefined ? {} : { seedDemo: options.seedDemo }),
  });
  await server.listen(0, "127.0.0.1");
  onTestFinished(() => server.close());
  const port = server.address?.port ?? 0;
  return {
    storage,
    port,
    origin: `http://127.0.0.1:${port}`,
    syncUrl: `ws://127.0.0.1:${port}/sync`,
    logged,
    advance(ms) {
      now += ms;
    },
  };
};
