import type { Invocation } from "../commands/command.ts";
import type { RestoreWrite } from "../commands/restore-write.ts";
import { ROOT_MAP_NAMES } from "../document/root-maps.ts";
import { createValueStore, type StoredValues } from "../document/stored-values.ts";
import type { HistoryEntry } from "./entries.ts";
import type { History } from "./history.ts";
import { placeOf, walkHistory } from "./past-values.ts";
import { REMOVABLE_MAPS, type Removable, recordOfKey } from "./record-states.ts";
import { onlyKeys, restoreWrites } from "./restore-writes.ts";

/** How an entry is put back: the command to run, and what it writes. */
export interface EntryRestore extends Invocation {
  readonly writes: readonly RestoreWrite[];
}

const RESTORE_COMMANDS: { readonly [M in Removable]: string } = {
  songs: "restoreSong",
  chairs: "restoreChair",
  people: "restorePerson",
  gigs: "restoreGig",
  sections: "restoreSection",
  cards: "restoreDetail",
  rehearsals: "restoreRehearsal",
};

/** The command that brings back the one record the writes are about; null when they are about more or other things. */
const bringingBack = (writes: readonly RestoreWrite[]): Invocation | null => {
  const [write] = writes;
  if (writes.length !== 1 || write?.put !== "value" || write.value !== false) return null;
  const map = REMOVABLE_MAPS.find((name) => name === write.map);
  if (map === undefined || !write.key.endsWith("/deleted")) return null;
  const record = recordOfKey(map, write.key);
  const [song, section] = record.split("/");
  return { name: RESTORE_COMMANDS[map], args: map === "sections" ? { song, section } : { id: record } };
};

const CARD_MAPS: ReadonlySet<string> = new Set(["cards", "texts", "statuses"]);
const firstSegment = (key: string): string => key.slice(0, key.indexOf("/"));

/** The values that can matter to some keys: the details they speak of, none of the others, of the log only themselves. */
const narrowed = (values: StoredValues, keys: ReadonlySet<string>): StoredValues => {
  const cards = new Set<string>();
  for (const name of keys) {
    const map = firstSegment(name);
    if (CARD_MAPS.has(map)) cards.add(firstSegment(name.slice(map.length + 1)));
  }
  const store = createValueStore();
  for (const map of ROOT_MAP_NAMES) {
    const isLog = map === "takes" || map === "slips";
    for (const [key, value] of values.entries(map)) {
      if (CARD_MAPS.has(map) ? !cards.has(firstSegment(key)) : isLog && !keys.has(`${map}/${key}`)) continue;
      store.put(map, key, value);
    }
  }
  return store;
};

/**
 * What puts back what one entry changed, against what stands now. Null when that stands as it did before the entry,
 * or nothing of it can be put back.
 */
export const entryRestore = (
  entry: Pick<HistoryEntry, "changes" | "firstSeq">,
  history: History,
  current: StoredValues,
): EntryRestore | null => {
  const walk = walkHistory(history);
  walk.goTo(placeOf(history, entry.firstSeq) - 1);
  const keys = new Set(entry.changes.map(({ map, key }) => `${map}/${key}`));
  const writes = onlyKeys(restoreWrites(narrowed(current, keys), narrowed(walk, keys)), keys);
  if (writes.length === 0) return null;
  const { name, args } = bringingBack(writes) ?? { name: "putBack", args: { writes } };
  return { name, args, writes };
};
