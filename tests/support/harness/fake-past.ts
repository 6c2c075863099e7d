import * as Y from "yjs";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import type { HistoryRow } from "#shared/history/history.ts";
import type { DeviceInfo } from "#shared/protocol/api.ts";

const HOUR = 3_600_000;
/** The demo band's story takes about this long. */
const SEASON_MS = 70 * 24 * HOUR;

/** The demo band's log as a server would have it: one row per command, spread over the season, by these devices. */
export const fakePast = (now: number, devices: readonly DeviceInfo[]): readonly HistoryRow[] => {
  const updates: Uint8Array[] = [];
  const ydoc = new Y.Doc();
  ydoc.on("update", (update: Uint8Array) => void updates.push(update));
  seedDemo(ydoc, now, "Europe/Lisbon");
  ydoc.destroy();
  return updates.map((bytes, i) => {
    // Three commands in a row by one device, then the next.
    const by = devices[Math.floor(i / 3) % devices.length];
    return {
      seq: i + 1,
      at: Math.round(now - HOUR - (SEASON_MS * (updates.length - i)) / updates.length),
      device: by?.id ?? "server",
      member: by?.memberId ?? null,
      bytes,
    };
  });
};
