/** The outbox in its own database: entries in the order they were kept. */
import * as v from "valibot";
import { ROLES } from "#shared/protocol/api.ts";
import { settled, store } from "./database.ts";
import type { KeptEntry } from "./local-board.ts";

export const ENTRIES = "entries";

const ENTRY = v.looseObject({
  id: v.string(),
  name: v.string(),
  at: v.number(),
  client: v.number(),
  clock: v.number(),
  author: v.looseObject({ member: v.nullable(v.string()), writer: v.string(), role: v.picklist(ROLES) }),
  written: v.array(v.looseObject({ map: v.string(), key: v.string() })),
  refusal: v.optional(v.string()),
  document: v.optional(v.string()),
});

export interface KeptEntries {
  /** What can be read, and how many entries cannot; those stay where they are. */
  readonly load: () => Promise<{ readonly entries: readonly KeptEntry[]; readonly unreadable: number }>;
  readonly keep: (entry: KeptEntry) => Promise<void>;
  readonly drop: (ids: readonly string[]) => Promise<void>;
}

export const createKeptEntries = (db: IDBDatabase): KeptEntries => {
  /** Where each entry lies; a place is known only once the browser has given it. */
  const places = new Map<string, Promise<IDBValidKey>>();
  return {
    load: async () => {
      const rows = await readAll(db);
      const entries: KeptEntry[] = [];
      for (const [place, value] of rows) {
        if (!v.is(ENTRY, value)) continue;
        const entry = value as unknown as KeptEntry;
        places.set(entry.id, Promise.resolve(place));
        entries.push(entry);
      }
      return { entries, unreadable: rows.length - entries.length };
    },
    keep: async (entry) => {
      const known = places.get(entry.id);
      if (known !== undefined) {
        const place = await known;
        return store(db, ENTRIES, (objects) => objects.put(entry, place));
      }
      return store(db, ENTRIES, (objects) => {
        const place = settled(objects.add(entry));
        places.set(entry.id, place);
        // Whoever waits for the place hears of a failure; nobody may be waiting.
        place.catch(() => places.delete(entry.id));
      });
    },
    drop: async (ids) => {
      const found = await Promise.all(ids.map((id) => places.get(id)));
      await store(db, ENTRIES, (objects) => {
        for (const place of found) if (place !== undefined) objects.delete(place);
      });
      for (const id of ids) places.delete(id);
    },
  };
};

/** Every entry with its place. Where the browser cannot read them together, each is tried on its own. */
const readAll = async (db: IDBDatabase): Promise<readonly (readonly [IDBValidKey, unknown])[]> => {
  const objects = () => db.transaction(ENTRIES, "readonly").objectStore(ENTRIES);
  const together = objects();
  const [keys, values] = await Promise.all([
    settled(together.getAllKeys()),
    settled(together.getAll()).catch(() => null) as Promise<unknown[] | null>,
  ]);
  const one = (key: IDBValidKey): Promise<unknown> => settled(objects().get(key)).catch(() => null);
  return Promise.all(
    keys.map(async (key, i) => [key, values === null ? await one(key) : values[i]] as const),
  );
};
