import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import { DURABLE_QUERY_MAX, MESSAGE, SYNC_STEP } from "#shared/protocol/messages.ts";

/** What a client may say; the bytes of each frame are drawn up in the shared protocol. */
export type Frame =
  | { readonly kind: "state-vector"; readonly bytes: Uint8Array }
  | { readonly kind: "update"; readonly bytes: Uint8Array }
  | { readonly kind: "awareness"; readonly bytes: Uint8Array }
  | { readonly kind: "query-awareness" }
  | { readonly kind: "durable-query"; readonly clients: readonly number[] };

/** Bytes that are no frame of the protocol. The connection that sent them is closed. */
export class MalformedFrame extends Error {
  override readonly name = "MalformedFrame";
}

/** Reads one whole frame; throws MalformedFrame for anything else, also for bytes left over. */
export const decodeFrame = (bytes: Uint8Array): Frame => {
  const decoder = decoding.createDecoder(bytes);
  const frame = orMalformed(() => readFrame(decoder));
  if (decoding.hasContent(decoder)) throw new MalformedFrame("Bytes are left over behind the frame");
  return frame;
};

/** Runs a decoder on foreign bytes; whatever it throws means that they are malformed. */
export const orMalformed = <T>(read: () => T): T => {
  try {
    return read();
  } catch (error) {
    throw error instanceof MalformedFrame
      ? error
      : new MalformedFrame(error instanceof Error ? error.message : String(error));
  }
};

const readFrame = (decoder: decoding.Decoder): Frame => {
  const type = decoding.readVarUint(decoder);
  switch (type) {
    case MESSAGE.sync:
      return readSync(decoder);
    case MESSAGE.awareness:
      return { kind: "awareness", bytes: decoding.readVarUint8Array(decoder) };
    case MESSAGE.queryAwareness:
      return { kind: "query-awareness" };
    case MESSAGE.durableQuery:
      return { kind: "durable-query", clients: readClients(decoder) };
    default:
      throw new MalformedFrame(`There is no message of type ${type}`);
  }
};

const readSync = (decoder: decoding.Decoder): Frame => {
  const step = decoding.readVarUint(decoder);
  if (step === SYNC_STEP.stateVector)
    return { kind: "state-vector", bytes: decoding.readVarUint8Array(decoder) };
  // The reply to a state vector and a live update differ in when they are sent, not in what they mean.
  if (step === SYNC_STEP.missing || step === SYNC_STEP.update)
    return { kind: "update", bytes: decoding.readVarUint8Array(decoder) };
  throw new MalformedFrame(`There is no sync step ${step}`);
};

const readClients = (decoder: decoding.Decoder): number[] => {
  const count = decoding.readVarUint(decoder);
  if (count > DURABLE_QUERY_MAX) throw new MalformedFrame(`A query names ${count} clients`);
  return Array.from({ length: count }, () => decoding.readVarUint(decoder));
};

/** Asks the other side what it misses, by saying what this side has. */
export const stateVectorFrame = (stateVector: Uint8Array): Uint8Array =>
  syncFrame(SYNC_STEP.stateVector, stateVector);

/** The reply to a state vector. */
export const missingFrame = (update: Uint8Array): Uint8Array => syncFrame(SYNC_STEP.missing, update);

export const updateFrame = (update: Uint8Array): Uint8Array => syncFrame(SYNC_STEP.update, update);

const syncFrame = (step: number, bytes: Uint8Array): Uint8Array =>
  encoding.encode((encoder) => {
    encoding.writeVarUint(encoder, MESSAGE.sync);
    encoding.writeVarUint(encoder, step);
    encoding.writeVarUint8Array(encoder, bytes);
  });

export const awarenessFrame = (update: Uint8Array): Uint8Array =>
  encoding.encode((encoder) => {
    encoding.writeVarUint(encoder, MESSAGE.awareness);
    encoding.writeVarUint8Array(encoder, update);
  });

/** `stateVector` is encoded; it is the rest of the frame. */
export const acknowledgementFrame = (stateVector: Uint8Array): Uint8Array =>
  encoding.encode((encoder) => {
    encoding.writeVarUint(encoder, MESSAGE.acknowledgement);
    encoding.writeUint8Array(encoder, stateVector);
  });
