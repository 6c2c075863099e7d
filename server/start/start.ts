import { networkInterfaces } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { err, ok, type Result } from "#shared/lib/result.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import { createCapabilityAccess } from "../access/capability-access.ts";
import type { SeedDemo } from "../access/demo.ts";
import { createLog, type Log, whyOf } from "../log.ts";
import { createTightrowServer } from "../server.ts";
import type { Settings } from "../settings/settings.ts";
import { openSqliteStorage } from "../storage/sqlite-storage.ts";
import { StorageUnavailable } from "../storage/storage.ts";
import { createNightlyBackups } from "../upkeep/nightly-backups.ts";
import { addressesOf } from "./addresses.ts";
import { greeting } from "./greeting.ts";

/** A server that runs, and what its person should read. */
export interface Running {
  readonly greeting: string;
  readonly log: Log;
  stop(code: CloseCode): Promise<void>;
}

const BYTES_PER_MIB = 1024 * 1024;
const MINUTE_MS = 60_000;
/** The build puts the client beside the server. */
const BUILT_CLIENT = new URL("../client/", import.meta.url);

/** Starts the product's server. What the person can mend is refused with one sentence. */
export const start = async (settings: Settings, seedDemo: SeedDemo): Promise<Result<Running>> => {
  const clock = (): number => Date.now();
  const log = createLog(settings.log, (line) => process.stderr.write(line), clock);
  const opened = await openStorage(settings);
  if (!opened.ok) return opened;
  const storage = opened.value;
  const client = settings.client === "" ? fileURLToPath(BUILT_CLIENT) : settings.client;
  const access = createCapabilityAccess(storage, clock);
  const server = createTightrowServer({
    storage,
    access,
    settings: { ...settings, client },
    log,
    seedDemo,
    clock,
  });

  const nightly = createNightlyBackups({
    folder: join(settings.data, "backups"),
    retention: { days: settings.backups, months: settings.backupMonths },
    hour: settings.backupHour,
    write: storage.backup,
    now: () => new Date(),
    log,
  });
  const backingUp = setInterval(() => void nightly.tick(), MINUTE_MS);
  backingUp.unref();

  const stop = async (code: CloseCode): Promise<void> => {
    clearInterval(backingUp);
    // What cannot be flushed was not acknowledged either; the files are closed all the same.
    await server
      .close(code)
      .catch((error: unknown) => log.error("not-stopped-cleanly", { why: whyOf(error) }));
    await storage.close();
  };
  try {
    await server.listen(settings.port, settings.host);
    const port = server.address?.port ?? settings.port;
    const links = settings.printLinks ? await server.startLinks() : null;
    const addresses = addressesOf(settings.host, port, settings.publicUrl, networkInterfaces());
    log.info("listening", { host: settings.host, port });
    return ok({ greeting: greeting(addresses, links), log, stop });
  } catch (error) {
    await stop(1001);
    return err(whyNotListening(error, settings));
  }
};

const openStorage = async (settings: Settings) => {
  try {
    return ok(await openSqliteStorage(settings.data, { maxBytes: settings.dataLimitMb * BYTES_PER_MIB }));
  } catch (error) {
    if (error instanceof StorageUnavailable) return err(error.message);
    throw error;
  }
};

const whyNotListening = (error: unknown, { port, host }: Settings): string => {
  const code = error instanceof Error && "code" in error ? error.code : "";
  if (code === "EADDRINUSE")
    return `Port ${port} is in use by another program. Stop that one, or set TIGHTROW_PORT to a free port.`;
  if (code === "EACCES")
    return `This user may not listen on port ${port}. Set TIGHTROW_PORT to a port above 1023.`;
  if (code === "EADDRNOTAVAIL")
    return `This machine has no address ${host}. Set TIGHTROW_HOST to one it has.`;
  return `The server could not start: ${whyOf(error)}.`;
};
