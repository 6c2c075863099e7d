import * as Y from "yjs";
import type { DeviceSession } from "#server/access/access-policy.ts";
import type { RoomBounds } from "#server/rooms/bounds.ts";
import { decodeFrame } from "#server/rooms/frames.ts";
import { RoomRegistry } from "#server/rooms/room-registry.ts";
import { createFakeFrameSocket, type FakeFrameSocket } from "./fake-frame-socket.ts";
import { createFaultyStorage } from "./faulty-storage.ts";
import { sessionOn } from "./open-access.ts";
import { roomBounds, roomParts } from "./room-parts.ts";

/** Sync step 1 of an empty document (y-protocols, PROTOCOL.md): asks for everything. */
export const ASK_FOR_ALL = Uint8Array.of(0, 0, 1, 0);

/** Rooms on a storage that can fail, with a clock that moves when it is told. */
export const openRooms = (changes: Partial<RoomBounds> = {}, storage = createFaultyStorage()) => {
  let now = 1_000_000;
  const events: string[] = [];
  const note = (event: string): void => void events.push(event);
  const parts = roomParts({
    bounds: roomBounds(changes),
    log: { info: note, warn: note, error: note },
    clock: () => now,
  });
  const rooms = new RoomRegistry({ storage, ...parts });
  return {
    storage,
    rooms,
    events,
    metrics: parts.metrics,
    join: async (device: string, session: Partial<DeviceSession> = {}) => {
      const socket = createFakeFrameSocket();
      const room = await rooms.open("fuses");
      const connection = room.join(socket, sessionOn("fuses", { device, memberId: device, ...session }));
      return { socket, connection };
    },
    /** Lets time pass, second by second, with what comes with it. */
    pass(ms: number): void {
      for (let left = ms; left > 0; left -= 1000) {
        now += Math.min(1000, left);
        rooms.tick();
      }
    },
  };
};

/** A device's own document, and the updates its changes make. */
export const createWriter = (client = 1) => {
  const doc = new Y.Doc();
  doc.clientID = client;
  const updates: Uint8Array[] = [];
  doc.on("update", (update: Uint8Array) => void updates.push(update));
  return {
    doc,
    /** Writes one key; answers the update. */
    set(key: string, value: unknown): Uint8Array {
      doc.getMap("cards").set(key, value);
      return updates.at(-1) ?? new Uint8Array();
    },
  };
};

/** What a socket was sent, by kind, in order. */
export const framesTo = ({ sent }: FakeFrameSocket): readonly string[] =>
  sent.map(([type, step]) => {
    if (type === 0) return ["state-vector", "missing", "update"][step ?? 0] ?? "unknown";
    return type === 120 ? "acknowledgement" : "presence";
  });

/** The document that a device has after all it was sent. */
export const documentAt = ({ sent }: FakeFrameSocket, doc = new Y.Doc()): Y.Doc => {
  for (const bytes of sent) {
    if (bytes[0] !== 0) continue;
    const frame = decodeFrame(bytes);
    if (frame.kind === "update") Y.applyUpdate(doc, frame.bytes);
  }
  return doc;
};
