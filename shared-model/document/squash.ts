/**
 * Writes a document anew: the same keys with the same values, without the past that Yjs keeps of them. The board and
 * every score stay the same to the last bit; what is gone is who wrote when, and every value that was overwritten.
 * Governing rule: the new document is another document. A replica of the old one must never be merged with it, because
 * to Yjs the two wrote the same keys at the same time; whoever swaps them gives the devices a new document to follow.
 */
import * as Y from "yjs";
import { type BoardDocument, createBoardDocument } from "./board-document.ts";
import { compareCodeUnits } from "./order-key.ts";
import { ROOT_MAP_NAMES, type RootMap } from "./root-maps.ts";

/** One key of a document and what stands there. */
export interface DocumentEntry {
  readonly map: RootMap;
  readonly key: string;
  readonly value: unknown;
}

/** Everything a document holds, known or not, map by map with sorted keys: the same list on every replica. */
export const entriesOf = (document: Pick<BoardDocument, "entries">): readonly DocumentEntry[] =>
  ROOT_MAP_NAMES.flatMap((map) =>
    [...document.entries(map)]
      .sort(([a], [b]) => compareCodeUnits(a, b))
      .map(([key, value]) => ({ map, key, value })),
  );

/** Yjs's own `set` refuses an object that has a field called `constructor`; a foreign program may have stored one. */
const put = (transaction: Y.Transaction, map: Y.Map<unknown>, key: string, value: unknown): void => {
  if (value instanceof Y.AbstractType || value instanceof Y.Doc) {
    map.set(key, new Y.Map());
    return;
  }
  const { clientID, store } = transaction.doc;
  const id = Y.createID(clientID, Y.getState(store, clientID));
  const content = new Y.ContentAny([value]);
  new Y.Item(id, null, null, null, null, map, key, content).integrate(transaction, 0);
};

/**
 * A document that holds exactly these entries, each key at most once, as one update of one device.
 * @param clientID Yjs client id of that device; the same entries and the same id give the same bytes
 */
export const documentFrom = (entries: readonly DocumentEntry[], clientID: number): Uint8Array => {
  const ydoc = new Y.Doc({ gc: false });
  ydoc.clientID = clientID;
  ydoc.transact((transaction) => {
    for (const { map, key, value } of entries) put(transaction, ydoc.getMap(map), key, value);
  });
  const update = Y.encodeStateAsUpdate(ydoc);
  ydoc.destroy();
  return update;
};

/**
 * The fresh document of what `ydoc` holds now. Left behind: overwritten values, updates that wait for others which never
 * came, root types this release does not know (see `unknownMigrations` before squashing), and the content of shared
 * types inside a key, which no command writes and nothing reads: an empty map stands there, still named by the reader.
 * @param clientID see `documentFrom`; no device that ever wrote to `ydoc` may have it
 * @param rewrite what to write instead, such as `erasePerson`
 */
export const squash = (
  ydoc: Y.Doc,
  clientID: number,
  rewrite: (entries: readonly DocumentEntry[]) => readonly DocumentEntry[] = (entries) => entries,
): Uint8Array => documentFrom(rewrite(entriesOf(createBoardDocument(ydoc))), clientID);
