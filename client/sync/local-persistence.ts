/**
 * A board on this device, in IndexedDB: the document as y-indexeddb keeps it, and beside it our own database with
 * the outbox. Both are written in the same moment; whichever arrives alone, nothing is lost: a document without its
 * entry is synced anyway, an entry without its document is run again.
 */
import * as v from "valibot";
import { IndexeddbPersistence } from "y-indexeddb";
import type * as Y from "yjs";
import type { Id } from "#shared/board/ids.ts";
import { ROLES } from "#shared/protocol/api.ts";
import { forgetClient } from "./client-memory.ts";
import { deleteDatabase, openDatabase, settled, store, within } from "./database.ts";
import { createFleetingBoard, type KeptEntry, type LocalBoard } from "./local-board.ts";

const documentName = (board: Id): string => `tightrow.board.${board}`;
const outboxName = (board: Id): string => `tightrow.outbox.${board}`;

const ENTRIES = "entries";
const FACTS = "facts";
const AS_OF = "asOf";

/** How long (ms) the stored document may take to load before we go on without it. */
const LOAD_MS = 10_000;

const CANNOT_STORE =
  "This device cannot store any more; its memory may be full. Keep this page open until everything is saved.";
const CANNOT_READ = "What this device kept of the board cannot be read; it is fetched from the server again.";

const ENTRY = v.looseObject({
  id: v.string(),
  name: v.string(),
  at: v.number(),
  client: v.number(),
  clock: v.number(),
  author: v.object({ member: v.nullable(v.string()), writer: v.string(), role: v.picklist(ROLES) }),
});

/** Opens what this device keeps of a board; one that is forgotten with the page where nothing can be kept. */
export const openLocalBoard = async (board: Id): Promise<LocalBoard> => {
  try {
    const db = await openDatabase(outboxName(board), (created) => {
      created.createObjectStore(ENTRIES, { autoIncrement: true });
      created.createObjectStore(FACTS);
    });
    return keepIn(db, board);
  } catch {
    return createFleetingBoard();
  }
};

/** Deletes what this device keeps of a board, unsent changes included. Close the board's session first. */
export const deleteLocalBoard = async (board: Id): Promise<void> => {
  forgetClient(board);
  await deleteDatabase(outboxName(board));
  await deleteDatabase(documentName(board));
};

const keepIn = (db: IDBDatabase, board: Id): LocalBoard => {
  /** Where each entry lies; a place is known only once the browser has given it. */
  const places = new Map<string, Promise<IDBValidKey>>();
  const running = new Set<Promise<void>>();
  const listeners = new Set<(sentence: string) => void>();
  let persistence: IndexeddbPersistence | null = null;
  let stopStoring = (): void => {};
  const report = (sentence: string): void => {
    for (const listener of listeners) listener(sentence);
  };
  const run = (work: () => Promise<void>): void => {
    const done = work().catch(() => report(CANNOT_STORE));
    running.add(done);
    void done.then(() => running.delete(done));
  };

  return {
    lasting: true,
    load: () => load(db, places),
    bind: async (ydoc) => {
      persistence = new IndexeddbPersistence(documentName(board), ydoc);
      // Whoever listens makes Yjs write out each change: while the document is filled, all of it, for nothing.
      ydoc.off("update", persistence._storeUpdate);
      const loaded = await isLoaded(persistence);
      stopStoring = storeSafely(persistence, ydoc, () => report(CANNOT_STORE));
      if (loaded) persistence.db?.addEventListener("abort", () => report(CANNOT_STORE));
      else report(CANNOT_READ);
    },
    keep: (entry) =>
      run(async () => {
        const known = places.get(entry.id);
        if (known !== undefined) {
          const place = await known;
          return store(db, ENTRIES, (objects) => objects.put(entry, place));
        }
        return add(db, entry, places);
      }),
    drop: (ids) =>
      run(async () => {
        const found = await Promise.all(ids.map((id) => places.get(id)));
        await store(db, ENTRIES, (objects) => {
          for (const place of found) if (place !== undefined) objects.delete(place);
        });
        for (const id of ids) places.delete(id);
      }),
    keepAsOf: (moment) => run(() => store(db, FACTS, (objects) => objects.put(moment, AS_OF))),
    onTrouble: (listener) => listeners.add(listener),
    close: async () => {
      stopStoring();
      await Promise.all(running);
      await persistence?.destroy().catch(() => {});
      db.close();
    },
  };
};

/**
 * Browsers take a page's databases away, for instance while a phone sleeps. Storing then throws inside the very
 * transaction of the change, which must not fail for that.
 */
const storeSafely = (persistence: IndexeddbPersistence, ydoc: Y.Doc, onTrouble: () => void): (() => void) => {
  const storeUpdate = (update: Uint8Array, origin: unknown): void => {
    try {
      persistence._storeUpdate(update, origin);
    } catch {
      onTrouble();
    }
  };
  ydoc.on("update", storeUpdate);
  return () => ydoc.off("update", storeUpdate);
};

const add = (db: IDBDatabase, entry: KeptEntry, places: Map<string, Promise<IDBValidKey>>): Promise<void> =>
  store(db, ENTRIES, (objects) => {
    const place = settled(objects.add(entry));
    places.set(entry.id, place);
    // Whoever waits for the place hears of a failure; nobody may be waiting.
    place.catch(() => places.delete(entry.id));
  });

const load: (db: IDBDatabase, places: Map<string, Promise<IDBValidKey>>) => ReturnType<LocalBoard["load"]> =
  async (db, places) => {
    const transaction = db.transaction([ENTRIES, FACTS], "readonly");
    const objects = transaction.objectStore(ENTRIES);
    const [keys, values, asOf] = await Promise.all([
      settled(objects.getAllKeys()),
      settled(objects.getAll()) as Promise<unknown[]>,
      settled(transaction.objectStore(FACTS).get(AS_OF)) as Promise<unknown>,
    ]);
    const entries: KeptEntry[] = [];
    values.forEach((value, i) => {
      const place = keys[i];
      if (place === undefined || !v.is(ENTRY, value)) return;
      const entry = value as unknown as KeptEntry;
      places.set(entry.id, Promise.resolve(place));
      entries.push(entry);
    });
    return { entries, asOf: typeof asOf === "number" ? asOf : null };
  };

/**
 * False when the stored document cannot be opened or never finishes loading. One that cannot be opened is thrown
 * away, or no later visit could keep anything either.
 */
const isLoaded = async (persistence: IndexeddbPersistence): Promise<boolean> => {
  const opened = persistence._db.then(
    () => true,
    () => false,
  );
  const failed = opened.then((open) => (open ? new Promise<never>(() => {}) : false));
  try {
    const loaded = persistence.whenSynced.then(() => true);
    if (await within(LOAD_MS, Promise.race([loaded, failed]))) return true;
    await deleteDatabase(persistence.name);
    return false;
  } catch {
    return false;
  }
};
