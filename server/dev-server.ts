import { networkInterfaces } from "node:os";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import { createCapabilityAccess } from "./access/capability-access.ts";
import { createTightrowApp, type TightrowApp } from "./app.ts";
import { createLog } from "./log.ts";
import { readSettings } from "./settings/settings.ts";
import { addressesOf } from "./start/addresses.ts";
import { greeting } from "./start/greeting.ts";
import { openSqliteStorage } from "./storage/sqlite-storage.ts";

/** The app as the development plugin mounts it. */
export interface DevServer {
  readonly app: TightrowApp;
  /** What to print once it is known where Vite listens. */
  greet(host: string, port: number): Promise<string>;
  close(): Promise<void>;
}

/** Composes the same app as the product's, without its HTTP server: Vite has one. Throws for settings that are wrong. */
export const createDevServer = async (
  env: Readonly<Record<string, string | undefined>>,
): Promise<DevServer> => {
  const settings = readSettings({ ...env, TIGHTROW_LOG: env.TIGHTROW_LOG ?? "warn" });
  if (!settings.ok) throw new Error(settings.error.join(" "));
  const clock = (): number => Date.now();
  const storage = await openSqliteStorage(settings.value.data);
  const log = createLog(settings.value.log, (line) => process.stderr.write(line), clock);
  const access = createCapabilityAccess(storage, clock);
  const app = createTightrowApp({ storage, access, settings: settings.value, log, clock, seedDemo });
  return {
    app,
    greet: async (host, port) => {
      const addresses = addressesOf(host, port, settings.value.publicUrl, networkInterfaces());
      return greeting(addresses, settings.value.printLinks ? await app.startLinks() : null);
    },
    async close() {
      await app.close(1012);
      await storage.close();
    },
  };
};
