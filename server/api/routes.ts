import type { AccessPolicy } from "../access/access-policy.ts";
import type { Demo } from "../access/demo.ts";
import { createDevices } from "../access/devices.ts";
import { createInTurn } from "../access/in-turn.ts";
import { createMakeLink } from "../access/links.ts";
import type { Membership } from "../access/membership.ts";
import { createPrivateDrawer } from "../access/private-values.ts";
import { createRecovery } from "../access/recovery.ts";
import { createSeasons } from "../access/seasons.ts";
import { depRoutes } from "../dep/dep-routes.ts";
import type { Log } from "../log.ts";
import type { RoomRegistry } from "../rooms/room-registry.ts";
import type { Settings } from "../settings/settings.ts";
import type { Storage } from "../storage/storage.ts";
import { boardRoutes } from "./board-routes.ts";
import type { Routes } from "./handler.ts";
import { peopleRoutes } from "./people-routes.ts";
import { createRateBound, type RateBound } from "./rate-bound.ts";
import { seasonRoutes } from "./season-routes.ts";

export interface RouteParts {
  readonly storage: Storage;
  readonly access: AccessPolicy;
  readonly membership: Membership;
  readonly rooms: RoomRegistry;
  /** Null when the server has no demo band. */
  readonly demo: Demo | null;
  readonly settings: Settings;
  readonly mayTry: RateBound;
  readonly clock: () => number;
  readonly log: Log;
}

/** How often one device may ask about a closed document in a minute. */
const READS_PER_MINUTE = 20;

/** The routes of the API, each over the part of the server that decides it. */
export const createRoutes = (parts: RouteParts): Routes => {
  const { storage, access, membership, rooms, demo, settings, mayTry, clock, log } = parts;
  const inTurn = createInTurn();
  const recovery = createRecovery(storage, membership, clock);
  const devices = createDevices({ storage, rooms, inTurn, clock });
  const makeLink = createMakeLink({ membership, rooms, clock });
  const drawer = createPrivateDrawer(storage, inTurn, clock);
  const seasons = createSeasons({ storage, rooms, devices, inTurn, clock, log });
  const mayReadClosed = createRateBound(READS_PER_MINUTE, clock);
  const { createBoards } = settings;
  return {
    ...boardRoutes({ access, membership, recovery, devices, demo, createBoards, mayTry }),
    ...peopleRoutes({ access, storage, makeLink, devices, drawer, clock }),
    ...seasonRoutes({ access, storage, seasons, mayReadClosed }),
    ...depRoutes(parts),
  };
};
