import type { Invocation } from "../commands/command.ts";
import type { RestoreWrite } from "../commands/restore-write.ts";
import type { StoredValues } from "../document/stored-values.ts";
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
  const writes = onlyKeys(restoreWrites(current, walk), keys);
  if (writes.length === 0) return null;
  const { name, args } = bringingBack(writes) ?? { name: "putBack", args: { writes } };
  return { name, args, writes };
};
