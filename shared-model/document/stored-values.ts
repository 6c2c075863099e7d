import { equalityDeep } from "lib0/function";
import type { BoardDocument, Json, Written } from "./board-document.ts";
import { ROOT_MAP_NAMES, type RootMap } from "./root-maps.ts";

/** What stands under the keys of a document, without any way to change it. */
export type StoredValues = Pick<BoardDocument, "get" | "entries">;

/** One key that an update changed; undefined = the key was, or is, not there. */
export interface KeyChange {
  readonly map: RootMap;
  readonly key: string;
  readonly before: unknown;
  readonly after: unknown;
}

/** Values in memory that can be put and taken away again, so that a document can be walked through its past. */
export interface ValueStore extends StoredValues {
  /** Puts a value; undefined removes the key. */
  readonly put: (map: RootMap, key: string, value: unknown) => void;
}

/** A store of its own, filled with what `from` holds. */
export const createValueStore = (from?: StoredValues): ValueStore => {
  const maps = new Map(
    ROOT_MAP_NAMES.map((name) => [name, new Map<string, unknown>(from?.entries(name))] as const),
  );
  const mapOf = (name: RootMap): Map<string, unknown> => {
    const map = maps.get(name);
    if (map === undefined) throw new Error(`No root map ${name}`);
    return map;
  };
  return {
    get: (map, key) => mapOf(map).get(key),
    entries: (map) => mapOf(map).entries(),
    put: (map, key, value) => {
      if (value === undefined) mapOf(map).delete(key);
      else mapOf(map).set(key, value);
    },
  };
};

/** A store as a document that nobody else shares: what is written to it stays in it, and nobody is told. */
export const documentOver = (store: ValueStore): BoardDocument => ({
  get: store.get,
  entries: store.entries,
  transact: (_origin, write) => {
    const written: Written[] = [];
    write((map: RootMap, key: string, value: Json) => {
      const before = store.get(map, key);
      if (equalityDeep(before, value)) return;
      store.put(map, key, value);
      written.push({ map, key, before, after: value });
    });
    return written;
  },
  onTouched: () => () => {},
});
