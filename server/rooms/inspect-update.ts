import * as Y from "yjs";
import { MalformedFrame, orMalformed } from "./frames.ts";

/** What the server needs to know about an update before it lets it near a document. */
export interface UpdateContent {
  /** Clients whose changes it carries. */
  readonly clients: ReadonlySet<number>;
  /** True when it carries neither changes nor deletions. */
  readonly empty: boolean;
}

/** Nobody changes a board so often with one device; a clock near 2^53 would shut its owner out for good. */
const CLOCK_MAX = 2 ** 40;

/**
 * Reads a whole Yjs update without a document; throws MalformedFrame when it cannot be read to its end.
 * The document's own reader reserves room for as many structs as the bytes claim, so it must not see them first.
 */
export const inspectUpdate = (update: Uint8Array): UpdateContent => {
  const { structs, ds } = orMalformed(() => Y.decodeUpdate(update));
  const clients = new Set<number>();
  for (const { id, length } of structs) {
    // Yjs takes a struct of no length in and can then not read what it stores of its deletion.
    if (!(length > 0)) throw new MalformedFrame("A change has no length");
    if (!(id.clock + length <= CLOCK_MAX)) throw new MalformedFrame("A clock is out of range");
    clients.add(id.client);
  }
  for (const deleted of ds.clients.values())
    if (deleted.some(({ len }) => !(len > 0))) throw new MalformedFrame("A deletion has no length");
  return { clients, empty: structs.length === 0 && ds.clients.size === 0 };
};
