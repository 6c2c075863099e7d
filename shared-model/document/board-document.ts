import { equalityDeep } from "lib0/function";
import type * as Y from "yjs";
import { ROOT_MAP_NAMES, type RootMap } from "./root-maps.ts";

/** Anything JSON can say. */
export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

/** One key that a transaction wrote, with the value that stood there before (undefined = none). */
export interface Written {
  readonly map: RootMap;
  readonly key: string;
  readonly before: unknown;
  readonly after: Json;
}

/** Writes one key; an equal value is skipped, because even a no-op write would be broadcast. */
export type SetKey = (map: RootMap, key: string, value: Json) => void;

/** Keys touched by one transaction, by root map. */
export type Touched = ReadonlyMap<RootMap, ReadonlySet<string>>;

/**
 * A band's document with Yjs hidden behind it. Keys are never deleted: deletion is a `deleted` field,
 * so every change moves the state vector and can be acknowledged.
 */
export interface BoardDocument {
  readonly get: (map: RootMap, key: string) => unknown;
  readonly entries: (map: RootMap) => IterableIterator<[string, unknown]>;
  /** Runs `write` in one transaction. Writes made before a throw stay: check everything first. */
  readonly transact: (origin: unknown, write: (set: SetKey) => void) => readonly Written[];
  /** Calls back once per transaction that changed a root map. The listener must not throw. */
  readonly onTouched: (listener: (touched: Touched, origin: unknown) => void) => () => void;
}

/** Wraps a Yjs document. The only place where the model meets Yjs. */
export const createBoardDocument = (ydoc: Y.Doc): BoardDocument => {
  const maps = new Map(ROOT_MAP_NAMES.map((name) => [name, ydoc.getMap<Json>(name)] as const));
  const mapOf = (name: RootMap): Y.Map<Json> => {
    const map = maps.get(name);
    if (map === undefined) throw new Error(`No root map ${name}`);
    return map;
  };

  const transact: BoardDocument["transact"] = (origin, write) => {
    const written: Written[] = [];
    ydoc.transact(() => {
      write((map, key, value) => {
        const target = mapOf(map);
        const before = target.get(key);
        if (target.has(key) && equalityDeep(before, value)) return;
        target.set(key, value);
        written.push({ map, key, before, after: value });
      });
    }, origin);
    return written;
  };

  const onTouched: BoardDocument["onTouched"] = (listener) => {
    const names = new Map([...maps].map(([name, map]) => [map as unknown, name]));
    const after = (transaction: Y.Transaction): void => {
      const touched = new Map<RootMap, Set<string>>();
      for (const [type, keys] of transaction.changed) {
        const name = names.get(type);
        if (name === undefined) continue;
        const strings = new Set<string>();
        for (const key of keys) if (key !== null) strings.add(key);
        if (strings.size > 0) touched.set(name, strings);
      }
      if (touched.size > 0) listener(touched, transaction.origin);
    };
    ydoc.on("afterTransaction", after);
    return () => ydoc.off("afterTransaction", after);
  };

  return {
    get: (map, key) => mapOf(map).get(key),
    entries: (map) => mapOf(map).entries(),
    transact,
    onTouched,
  };
};
