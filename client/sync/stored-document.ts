/**
 * A board's document as y-indexeddb keeps it: a row per change. The library reads all rows in one go, and a single
 * broken one would keep it from ever finishing; so it opens the database and writes, and the rows are read here.
 */
import { IndexeddbPersistence } from "y-indexeddb";
import * as Y from "yjs";
import { NoAnswer, onTakenAway, openDatabase, settled, within } from "./database.ts";
import { fillFrom, type Salvaged } from "./salvage.ts";

/** How long (ms) the stored document may take to load before we go on without it. */
const LOAD_MS = 10_000;

const ROWS = "updates";

/** `unreadable`: the database cannot be opened. `late`: the browser does not answer; nothing is known to be broken. */
export type Opened = StoredDocument | "unreadable" | "late";

export interface StoredDocument extends Salvaged {
  /** From now on stores what is added. Calls back when that fails. */
  readonly follow: (onTrouble: () => void) => void;
  /** Resolves when all is stored. */
  readonly close: () => Promise<void>;
}

/** Opens a database by name and fills a document from it; a new one is empty. */
export const openStoredDocument = async (name: string): Promise<Opened> => {
  // The library must not meet a database that does not open: nobody would hear of it.
  const db = await openDatabase(name, (created) => {
    created.createObjectStore(ROWS, { autoIncrement: true });
    created.createObjectStore("custom");
  }).catch(troubleOf);
  if (typeof db === "string") return db;
  if (!db.objectStoreNames.contains(ROWS)) {
    db.close();
    return "unreadable";
  }
  // It reads nothing, into nothing; the filled document takes its place afterwards.
  const persistence = new IndexeddbPersistence(name, new Y.Doc());
  persistence.doc.off("update", persistence._storeUpdate);
  persistence._dbref = Number.MAX_SAFE_INTEGER;
  try {
    await within(LOAD_MS, persistence.whenSynced);
    const rows = await within(LOAD_MS, readRows(db));
    const filled = fillFrom(rows.values, persistence);
    persistence._dbref = rows.next;
    persistence._dbsize = rows.values.length;
    return { ...filled, ...storing(persistence, filled.ydoc) };
  } catch (error) {
    return closed(persistence, troubleOf(error));
  } finally {
    db.close();
  }
};

const troubleOf = (error: unknown): "unreadable" | "late" =>
  error instanceof NoAnswer ? "late" : "unreadable";

/** Starts a database under a new name with what the document holds. */
export const beginStoredDocument = async (name: string, ydoc: Y.Doc): Promise<StoredDocument | "late"> => {
  const persistence = new IndexeddbPersistence(name, ydoc);
  ydoc.off("update", persistence._storeUpdate);
  try {
    await within(LOAD_MS, persistence.whenSynced);
    return { ydoc, broken: 0, ...storing(persistence, ydoc) };
  } catch {
    return closed(persistence, "late");
  }
};

const closed = <T>(persistence: IndexeddbPersistence, result: T): T => {
  void persistence.destroy().catch(() => {});
  return result;
};

interface Rows {
  readonly values: readonly unknown[];
  /** Above the last row's key. */
  readonly next: number;
}

/** All rows in order. Where the browser cannot read them together, each is tried on its own. */
const readRows = async (db: IDBDatabase): Promise<Rows> => {
  const objects = () => db.transaction(ROWS, "readonly").objectStore(ROWS);
  const together = objects();
  const [keys, values] = await Promise.all([
    settled(together.getAllKeys()),
    settled(together.getAll()).catch(() => null) as Promise<unknown[] | null>,
  ]);
  const read = (key: IDBValidKey): Promise<unknown> => settled(objects().get(key)).catch(() => null);
  const next = Number(keys.at(-1) ?? 0) + 1;
  return { values: values ?? (await Promise.all(keys.map(read))), next };
};

const storing = (
  persistence: IndexeddbPersistence,
  ydoc: Y.Doc,
): Pick<StoredDocument, "follow" | "close"> => {
  let stop = (): void => {};
  return {
    follow: (onTrouble) => {
      // Browsers take a page's databases away, for instance while a phone sleeps. Storing then throws inside the very
      // transaction of the change, which must not fail for that.
      const storeUpdate = (update: Uint8Array, origin: unknown): void => {
        try {
          persistence._storeUpdate(update, origin);
        } catch {
          onTrouble();
        }
      };
      persistence.doc = ydoc;
      persistence.db?.addEventListener("abort", onTrouble);
      if (persistence.db) onTakenAway(persistence.db, onTrouble);
      ydoc.on("update", storeUpdate);
      stop = () => ydoc.off("update", storeUpdate);
    },
    close: async () => {
      stop();
      await persistence.destroy().catch(() => {});
    },
  };
};
