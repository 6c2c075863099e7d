import type { IncomingMessage } from "node:http";
import type { Duplex } from "node:stream";
import type { NewLink } from "#shared/protocol/api.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import type { AccessPolicy } from "./access/access-policy.ts";
import { createDemo, type SeedDemo } from "./access/demo.ts";
import { watchExpiry } from "./access/expiry.ts";
import { createMembership } from "./access/membership.ts";
import { type Api, createApi } from "./api/api.ts";
import { createAddressOf } from "./api/client-address.ts";
import { createOriginCheck } from "./api/origin.ts";
import { createRateBound } from "./api/rate-bound.ts";
import { createRoutes } from "./api/routes.ts";
import type { Log } from "./log.ts";
import { createMetrics } from "./metrics/metrics.ts";
import { RoomRegistry } from "./rooms/room-registry.ts";
import type { Settings } from "./settings/settings.ts";
import { createPruning } from "./storage/pruning.ts";
import type { Storage } from "./storage/storage.ts";
import { createSyncSockets } from "./sync/sync-sockets.ts";

/** What the server is composed of; whoever composes it closes the storage, after the server. */
export interface ServerParts {
  readonly storage: Storage;
  readonly access: AccessPolicy;
  readonly settings: Settings;
  readonly log: Log;
  /** Server time, ms since 1970. */
  readonly clock: () => number;
  /** Writes the demo band; absent, or `settings.demo` off = there is none. */
  readonly seedDemo?: SeedDemo;
}

/** Joining links of the demo board, for the person who started the server. */
export interface StartLinks {
  readonly leader: NewLink;
  readonly member: NewLink;
}

/** The API and the sync sockets, to be mounted on any HTTP server. */
export interface TightrowApp {
  readonly api: Api;
  upgrade(request: IncomingMessage, socket: Duplex, head: Buffer): boolean;
  /** Null when there is no demo. */
  startLinks(): Promise<StartLinks | null>;
  /** Sends everybody away with `code` and waits until what they sent is on the disk. */
  close(code: CloseCode): Promise<void>;
}

const HOUSEKEEPING_MS = 1000;
const CLOSE_GRACE_MS = 2000;

export const createTightrowApp = (parts: ServerParts): TightrowApp => {
  const { storage, settings, log, clock, seedDemo } = parts;
  const metrics = createMetrics();
  const rooms = new RoomRegistry({
    storage,
    metrics,
    bounds: settings,
    idleMs: settings.idleSeconds * 1000,
    log,
    clock,
  });
  const expiry = watchExpiry(parts.access, rooms, clock);
  const { access } = expiry;
  const membership = createMembership(storage, clock);
  const onRetire = (document: string): void => rooms.closeDocument(document, 4410);
  const demo =
    seedDemo !== undefined && settings.demo
      ? createDemo({ storage, membership, seedDemo, clock, onRetire })
      : null;
  const isOriginAllowed = createOriginCheck([
    ...settings.origins,
    ...(settings.publicUrl ? [settings.publicUrl] : []),
  ]);
  const addressOf = createAddressOf(settings.trustProxy);
  const mayTry = createRateBound(settings.triesPerMinute, clock);
  const api = createApi({
    routes: createRoutes({ storage, access, membership, rooms, demo, settings, mayTry, clock, log }),
    isOriginAllowed,
    health: () => {
      const { boards, connections, storing } = rooms.gauges;
      return { status: storing ? "ok" : "not-storing", boards, connections };
    },
    metrics,
    metricsToken: settings.metricsToken,
    addressOf,
    mayCall: createRateBound(settings.requestsPerMinute, clock),
    mayWrite: createRateBound(settings.writesPerMinute, clock),
    bodyBytes: settings.bodyBytes,
    overTls: isOverTls(settings),
    log,
  });
  const sockets = createSyncSockets({
    rooms,
    access,
    isOriginAllowed,
    addressOf,
    bounds: settings,
    metrics,
    heartbeatMs: settings.heartbeatSeconds * 1000,
    log,
  });
  metrics.watch(() => ({ ...rooms.gauges, storageBytes: storage.size() }));
  const prune = createPruning(storage, settings.archiveDays, log, clock);
  const housekeeping = setInterval(() => {
    rooms.tick();
    prune();
    expiry.tick();
  }, HOUSEKEEPING_MS);
  housekeeping.unref();

  return {
    api,
    upgrade: sockets.upgrade,
    startLinks: async () => (demo === null ? null : demo.startLinks()),
    async close(code) {
      clearInterval(housekeeping);
      rooms.closeAll(code);
      await sockets.close(CLOSE_GRACE_MS);
      await storage.flush();
      metrics.close();
    },
  };
};

/** True when people reach the server by https. */
export const isOverTls = (settings: Settings): boolean => settings.publicUrl?.startsWith("https:") ?? false;
