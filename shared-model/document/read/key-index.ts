import type { BoardDocument } from "../board-document.ts";
import { type RootMap, splitKey } from "../root-maps.ts";
import type { IssueLog } from "./decode.ts";

/** Raw values grouped by the leading key segments: group → rest of the key → value. */
export interface KeyIndex {
  /** Takes the current value of one key. Returns the group it belongs to, or null for a foreign key. */
  readonly take: (key: string) => string | null;
  readonly takeAll: () => void;
  readonly group: (group: string) => ReadonlyMap<string, unknown>;
  readonly groups: () => IterableIterator<string>;
}

const NOTHING: ReadonlyMap<string, unknown> = new Map();

/**
 * Indexes one root map by its first `lead` key segments, so that a touched key leads to its record without
 * a scan. A key of another shape is reported once and otherwise left alone.
 */
export const createKeyIndex = (
  document: BoardDocument,
  map: RootMap,
  lead: number,
  issues: IssueLog,
): KeyIndex => {
  const groups = new Map<string, Map<string, unknown>>();
  const put = (key: string, value: unknown): string | null => {
    const segments = splitKey(map, key);
    if (segments === null) {
      issues.report(map, key, "This key has an unknown form and is left out.");
      return null;
    }
    const group = segments.slice(0, lead).join("/");
    const rest = segments.slice(lead).join("/");
    const bucket = groups.get(group);
    if (bucket === undefined) groups.set(group, new Map([[rest, value]]));
    else bucket.set(rest, value);
    return group;
  };
  return {
    take: (key) => put(key, document.get(map, key)),
    takeAll: () => {
      for (const [key, value] of document.entries(map)) put(key, value);
    },
    group: (group) => groups.get(group) ?? NOTHING,
    groups: () => groups.keys(),
  };
};
