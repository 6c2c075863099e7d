/**
 * Commands of this device, kept until the server has them on disk.
 *
 * A command's transaction moves the clock of the Yjs client that wrote it; an acknowledgement names, per client, the
 * clock below which everything is on the server's disk. So an entry is saved when its client's acknowledged clock
 * reaches the entry's own, also when the answer comes on another connection or to another visit.
 */
import * as Y from "yjs";
import type { Outbox, RefusedChange } from "#client/store/save-state.ts";
import type { BoardDocument } from "#shared/document/board-document.ts";
import type { KeptEntry, LocalBoard } from "./local-board.ts";
import { replay } from "./replay.ts";
import type { SaveStatus } from "./save-status.ts";

export interface SyncOutbox extends Outbox {
  /** Takes in what is on the server's disk: client → clock. */
  readonly acknowledge: (durable: ReadonlyMap<number, number>) => void;
  /** Clients whose changes wait to be acknowledged. */
  readonly waiting: () => ReadonlySet<number>;
  /**
   * Runs again what neither this device's document nor the server's holds any more. Call when the document has
   * everything the server has, never before: until then a missing change may just not have arrived.
   */
  readonly recover: () => void;
}

export interface OutboxParts {
  readonly ydoc: Y.Doc;
  readonly document: BoardDocument;
  readonly local: LocalBoard;
  readonly status: SaveStatus;
  /** What earlier visits left, oldest first. */
  readonly entries: readonly KeptEntry[];
}

/** How many saved changes are remembered as such; about older ones nobody asks. */
const SAVED_REMEMBERED = 200;

const toRefused = ({ id, name, refusal = "" }: KeptEntry): RefusedChange => ({
  id,
  command: name,
  sentence: refusal,
});

export const createOutbox = ({ ydoc, document, local, status, entries }: OutboxParts): SyncOutbox => {
  const pending = new Map<string, KeptEntry>();
  const refused = new Map<string, KeptEntry>();
  const saved = new Set<string>();
  for (const entry of entries) (entry.refusal === undefined ? pending : refused).set(entry.id, entry);

  const clockOf = (client: number): number => Y.getState(ydoc.store, client);
  const publish = (): void => {
    const before = status.state();
    const changed = before.refused.length !== refused.size;
    status.patch({
      unsent: pending.size,
      refused: changed ? [...refused.values()].map(toRefused) : before.refused,
    });
  };
  const markSaved = (id: string): void => {
    pending.delete(id);
    saved.add(id);
    const [oldest] = saved;
    if (saved.size > SAVED_REMEMBERED && oldest !== undefined) saved.delete(oldest);
  };

  const rerun = (entry: KeptEntry): void => {
    const refusal = replay(document, entry);
    // Where nothing had to be written, the next flush of the server makes sure of what it has sent us.
    const after = { ...entry, client: ydoc.clientID, clock: clockOf(ydoc.clientID) };
    if (refusal === null) pending.set(entry.id, after);
    else {
      pending.delete(entry.id);
      refused.set(entry.id, { ...after, refusal });
    }
    local.keep(refusal === null ? after : { ...after, refusal });
  };

  publish();
  return {
    keep: (entry) => {
      const kept = { ...entry, client: ydoc.clientID, clock: clockOf(ydoc.clientID) };
      pending.set(entry.id, kept);
      local.keep(kept);
      publish();
    },
    acknowledge: (durable) => {
      const done = [...pending.values()].filter(({ client, clock }) => (durable.get(client) ?? -1) >= clock);
      if (done.length === 0) return;
      for (const { id } of done) markSaved(id);
      local.drop(done.map(({ id }) => id));
      publish();
    },
    waiting: () => new Set([...pending.values()].map(({ client }) => client)),
    recover: () => {
      const missing = [...pending.values()].filter(({ client, clock }) => clockOf(client) < clock);
      for (const entry of missing) rerun(entry);
      if (missing.length > 0) publish();
    },
    dismiss: (id) => {
      if (!refused.delete(id)) return;
      local.drop([id]);
      publish();
    },
    stateOf: (id) =>
      pending.has(id) ? "on this phone" : refused.has(id) ? "refused" : saved.has(id) ? "saved" : undefined,
    forgetNote: status.forgetNote,
    saveState: status.state,
    subscribe: status.subscribe,
  };
};
