import * as decoding from "lib0/decoding";
import * as encoding from "lib0/encoding";
import type { Connection } from "./connection.ts";
import { awarenessFrame, MalformedFrame, orMalformed } from "./frames.ts";

interface Presence {
  readonly client: number;
  readonly clock: number;
  /** JSON of the state; `null` = gone. */
  readonly json: string;
}

/** Clocks count changes of one page's life; a larger one only serves to shut the owner out. */
const CLOCK_MAX = 0xffff_ffff;
const GONE = "null";

/**
 * Passes on who is where (y-protocols' awareness), and keeps it only while the connection lasts.
 * A connection speaks for one client: the one its first frame names alone. Stock clients repeat what they heard about
 * others, so entries about others are dropped, not punished.
 */
export class PresenceRelay {
  readonly #owners = new Map<number, Connection>();
  readonly #states = new Map<Connection, Presence>();
  readonly #maxBytes: number;

  constructor(maxBytes: number) {
    this.#maxBytes = maxBytes;
  }

  /** Takes an awareness update; answers the frame to pass on to all others, or null. Throws MalformedFrame. */
  receive(from: Connection, update: Uint8Array): Uint8Array | null {
    const entries = orMalformed(() => readEntries(update));
    const own = this.#ownEntry(from, entries);
    if (own === null || own.json.length > this.#maxBytes) return null;
    requireState(own);
    const known = this.#states.get(from);
    if (known !== undefined && own.clock < known.clock) return null;
    this.#states.set(from, own);
    return presenceFrame([own]);
  }

  /** Forgets a connection; answers the frame that tells the others, or null when it never showed itself. */
  leave(connection: Connection): Uint8Array | null {
    const state = this.#states.get(connection);
    this.#states.delete(connection);
    if (state === undefined || this.#owners.get(state.client) !== connection) return null;
    this.#owners.delete(state.client);
    return presenceFrame([{ ...state, json: GONE }]);
  }

  /** Everybody who is there now, as one frame; null when nobody is. */
  everybody(): Uint8Array | null {
    const present = [...this.#states.values()].filter((state) => state.json !== GONE);
    return present.length === 0 ? null : presenceFrame(present);
  }

  #ownEntry(from: Connection, entries: readonly Presence[]): Presence | null {
    const [first] = entries;
    if (first === undefined) return null;
    const mine = this.#states.get(from);
    if (mine !== undefined) return entries.find((entry) => entry.client === mine.client) ?? null;
    if (entries.length > 1) return null;
    const owner = this.#owners.get(first.client);
    // The same device may come back before the server has noticed that its old socket is dead.
    if (owner !== undefined && owner.session.device !== from.session.device) return null;
    if (owner !== undefined) this.#states.delete(owner);
    this.#owners.set(first.client, from);
    return first;
  }
}

/** A frame that says nothing: y-websocket clients give up a connection on which no message came for 30 s. */
export const silentPresenceFrame = (): Uint8Array => presenceFrame([]);

const presenceFrame = (entries: readonly Presence[]): Uint8Array =>
  awarenessFrame(
    encoding.encode((encoder) => {
      encoding.writeVarUint(encoder, entries.length);
      for (const { client, clock, json } of entries) {
        encoding.writeVarUint(encoder, client);
        encoding.writeVarUint(encoder, clock);
        encoding.writeVarString(encoder, json);
      }
    }),
  );

const readEntries = (update: Uint8Array): Presence[] => {
  const decoder = decoding.createDecoder(update);
  const count = decoding.readVarUint(decoder);
  const entries: Presence[] = [];
  // Not preallocated: `count` is a claim. The reader throws at the end of the bytes.
  for (let i = 0; i < count; i++)
    entries.push({
      client: decoding.readVarUint(decoder),
      clock: decoding.readVarUint(decoder),
      json: decoding.readVarString(decoder),
    });
  return entries;
};

/** Broken JSON would throw in everybody else's client. */
const requireState = ({ clock, json }: Presence): void => {
  const state: unknown = orMalformed(() => JSON.parse(json));
  if (typeof state !== "object" || Array.isArray(state)) throw new MalformedFrame("A presence is no object");
  if (clock > CLOCK_MAX) throw new MalformedFrame("A presence clock is out of range");
};
