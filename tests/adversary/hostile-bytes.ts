/** Frames and updates no honest client makes. The wire formats: y-protocols' PROTOCOL.md and Yjs's INTERNALS.md. */
import * as encoding from "lib0/encoding";
import * as Y from "yjs";
import { MESSAGE, SYNC_STEP } from "#shared/protocol/messages.ts";

/**
 * RFC 6455, section 7.1.5: what the other side sees when a connection ends without a close frame. A server that hangs
 * up on somebody in full flow resets the connection, and the frame with its code may be lost on the way.
 */
export const RESET = 1006;

type Write = (encoder: encoding.Encoder) => void;

export const bytes = (write: Write): Uint8Array => encoding.encode(write);

/** Numbers one after the other, each as a varuint. */
export const numbers = (...values: readonly number[]): Uint8Array =>
  bytes((encoder) => {
    for (const value of values) encoding.writeVarUint(encoder, value);
  });

export const syncFrame = (step: keyof typeof SYNC_STEP, content: Uint8Array): Uint8Array =>
  bytes((encoder) => {
    encoding.writeVarUint(encoder, MESSAGE.sync);
    encoding.writeVarUint(encoder, SYNC_STEP[step]);
    encoding.writeVarUint8Array(encoder, content);
  });

export const presenceFrame = (
  ...entries: readonly (readonly [client: number, clock: number, json: string])[]
): Uint8Array =>
  bytes((encoder) => {
    encoding.writeVarUint(encoder, MESSAGE.awareness);
    encoding.writeVarUint8Array(
      encoder,
      bytes((inner) => {
        encoding.writeVarUint(inner, entries.length);
        for (const [client, clock, json] of entries) {
          encoding.writeVarUint(inner, client);
          encoding.writeVarUint(inner, clock);
          encoding.writeVarString(inner, json);
        }
      }),
    );
  });

/** An update that writes into the map "cards". */
export const writing = (key: string, value: unknown = "forged", client?: number): Uint8Array => {
  const doc = new Y.Doc();
  if (client !== undefined) doc.clientID = client;
  doc.getMap("cards").set(key, value);
  return Y.encodeStateAsUpdate(doc);
};

/** An update of nothing but deletions: of everything these clients ever wrote. */
export const deleting = (ranges: ReadonlyMap<number, number>): Uint8Array =>
  bytes((encoder) => {
    encoding.writeVarUint(encoder, 0);
    encoding.writeVarUint(encoder, ranges.size);
    for (const [client, length] of ranges) {
      encoding.writeVarUint(encoder, client);
      encoding.writeVarUint(encoder, 1);
      encoding.writeVarUint(encoder, 0);
      encoding.writeVarUint(encoder, length);
    }
  });

/** A change of `client` that follows on `clock` changes nobody has seen. */
export const afterGap = (client: number, clock: number): Uint8Array => {
  const doc = new Y.Doc();
  doc.clientID = client;
  for (let i = 0; i < clock; i++) doc.getMap("cards").set("gap", i);
  const before = Y.encodeStateVector(doc);
  doc.getMap("cards").set("gap", "after");
  return Y.encodeStateAsUpdate(doc, before);
};

/** One struct of `client` at `clock` that claims to be `length` long: a range of deleted content (struct kind 0). */
export const endless = (client: number, clock: number, length: number): Uint8Array =>
  bytes((encoder) => {
    for (const value of [1, 1, client, clock]) encoding.writeVarUint(encoder, value);
    encoding.writeUint8(encoder, 0);
    encoding.writeVarUint(encoder, length);
    encoding.writeVarUint(encoder, 0);
  });
