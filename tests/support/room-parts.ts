import type { Log } from "#server/log.ts";
import { createMetrics } from "#server/metrics/metrics.ts";
import type { RoomBounds } from "#server/rooms/bounds.ts";
import type { RegistryParts } from "#server/rooms/room-registry.ts";
import { readSettings } from "#server/settings/settings.ts";

/** The bounds of the default settings. */
export const roomBounds = (changes: Partial<RoomBounds> = {}): RoomBounds => {
  const settings = readSettings({});
  if (!settings.ok) throw new Error(settings.error.join(" "));
  return { ...settings.value, ...changes };
};

const silent: Log = { info: () => {}, warn: () => {}, error: () => {} };

/** All a registry of rooms needs beside its storage. */
export const roomParts = (changes: Partial<RegistryParts> = {}): Omit<RegistryParts, "storage"> => ({
  bounds: roomBounds(),
  idleMs: 60_000,
  log: silent,
  metrics: createMetrics(),
  clock: () => 0,
  ...changes,
});
