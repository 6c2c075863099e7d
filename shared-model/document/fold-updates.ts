/**
 * Plays stored updates one after another and tells what each changed, key by key.
 * Governing rule: total. Whatever the bytes hold, an update yields changes and perhaps a problem, never an exception.
 */
import { equalityDeep } from "lib0/function";
import * as Y from "yjs";
import { ROOT_MAP_NAMES, type RootMap } from "./root-maps.ts";
import { createValueStore, type KeyChange, type StoredValues } from "./stored-values.ts";

/** `unreadable`: the bytes are damaged. `early`: it builds on something that has not come yet, and waits for it. */
export type UpdateProblem = "unreadable" | "early";

export interface FoldedUpdate {
  readonly changes: readonly KeyChange[];
  readonly problem: UpdateProblem | null;
}

export interface UpdateFolder {
  readonly apply: (bytes: Uint8Array) => FoldedUpdate;
  /** What stands after the last update; changes with the next. */
  readonly values: StoredValues;
}

/** What JSON can say of a value; shared types and bytes come from no command and are told apart only as such. */
const plain = (value: unknown): unknown => {
  if (value instanceof Y.AbstractType) return value.toJSON() ?? null;
  return value instanceof Uint8Array ? null : value;
};

/** Starts from nothing. */
export const createUpdateFolder = (): UpdateFolder => {
  const ydoc = new Y.Doc();
  const maps = ROOT_MAP_NAMES.map((name) => [name, ydoc.getMap(name)] as const);
  const names = new Map<unknown, RootMap>(maps.map(([name, map]) => [map, name]));
  const values = createValueStore();
  const touched = new Map<RootMap, Set<string>>();

  ydoc.on("afterTransaction", (transaction: Y.Transaction) => {
    for (const [type, keys] of transaction.changed) {
      const name = names.get(type);
      if (name === undefined) continue;
      const set = touched.get(name) ?? new Set<string>();
      touched.set(name, set);
      for (const key of keys) if (key !== null) set.add(key);
    }
  });

  const takeChanges = (): readonly KeyChange[] => {
    const changes: KeyChange[] = [];
    for (const [map, ymap] of maps) {
      for (const key of touched.get(map) ?? []) {
        const before = values.get(map, key);
        const after = plain(ymap.get(key));
        if (equalityDeep(before, after)) continue;
        values.put(map, key, after);
        changes.push({ map, key, before, after });
      }
    }
    touched.clear();
    return changes;
  };

  return {
    values,
    apply: (bytes) => {
      const { pendingStructs, pendingDs } = ydoc.store;
      let readable = true;
      try {
        Y.applyUpdate(ydoc, bytes);
      } catch {
        readable = false;
      }
      const { pendingStructs: structs, pendingDs: deletes } = ydoc.store;
      const waits =
        (structs !== null && structs !== pendingStructs) || (deletes !== null && deletes !== pendingDs);
      return { changes: takeChanges(), problem: readable ? (waits ? "early" : null) : "unreadable" };
    },
  };
};
