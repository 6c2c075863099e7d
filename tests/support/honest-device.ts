/** A device that keeps to the rules, joined to a room without a network in between. */
import * as decoding from "lib0/decoding";
import * as Y from "yjs";
import type { DeviceSession } from "#server/access/access-policy.ts";
import type { Connection } from "#server/rooms/connection.ts";
import { decodeFrame, missingFrame, stateVectorFrame, updateFrame } from "#server/rooms/frames.ts";
import type { RoomRegistry } from "#server/rooms/room-registry.ts";
import type { CloseCode } from "#shared/protocol/close-codes.ts";
import { MESSAGE } from "#shared/protocol/messages.ts";

export interface HonestDevice {
  readonly ydoc: Y.Doc;
  /** Joins, asks for what it lacks and sends what the server lacks. */
  readonly join: (rooms: RoomRegistry, session: DeviceSession) => Promise<void>;
  /** The code by which the server has sent it away; null while it is in. */
  readonly sentAway: () => CloseCode | null;
  /** How far the server said that this document's own changes are on its disk. */
  readonly saved: () => number;
}

export const createHonestDevice = (ydoc: Y.Doc): HonestDevice => {
  let connection: Connection | null = null;
  let closedWith: CloseCode | null = null;
  let saved = 0;
  const SERVER = "server";

  const hear = (bytes: Uint8Array): void => {
    if (bytes[0] === MESSAGE.acknowledgement) {
      const heads = Y.decodeStateVector(
        decoding.readTailAsUint8Array(decoding.createDecoder(bytes.subarray(1))),
      );
      saved = Math.max(saved, heads.get(ydoc.clientID) ?? 0);
      return;
    }
    const frame = decodeFrame(bytes);
    if (frame.kind === "update") Y.applyUpdate(ydoc, frame.bytes, SERVER);
    else if (frame.kind === "state-vector") {
      const lacking = Y.encodeStateAsUpdate(ydoc, frame.bytes);
      connection?.receive(missingFrame(lacking));
    }
  };
  ydoc.on("update", (update: Uint8Array, origin: unknown) => {
    if (origin !== SERVER) connection?.receive(updateFrame(update));
  });

  return {
    ydoc,
    join: async (rooms, session) => {
      const room = await rooms.open(session.document);
      closedWith = null;
      const early: Uint8Array[] = [];
      const socket = {
        bufferedAmount: 0,
        send: (bytes: Uint8Array) => void (connection === null ? early.push(bytes) : hear(bytes)),
        close: (code: CloseCode) => {
          closedWith = code;
          connection = null;
        },
      };
      connection = null;
      const joined = room.join(socket, session);
      connection = joined;
      early.forEach(hear);
      joined.receive(stateVectorFrame(Y.encodeStateVector(ydoc)));
    },
    sentAway: () => closedWith,
    saved: () => saved,
  };
};
