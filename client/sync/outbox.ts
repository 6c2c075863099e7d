/**
 * Commands of this device, kept until the server has them on disk.
 *
 * A command's transaction moves the clock of the Yjs client that wrote it; an acknowledgement names, per client, the
 * clock below which everything is on the server's disk. So an entry is saved when its client's acknowledged clock
 * reaches the entry's own, also when the answer comes on another connection or to another visit.
 *
 * What was written into an earlier season's document and is not saved there is run again in this one, once.
 */
import * as Y from "yjs";
import type { Outbox, RefusedChange } from "#client/store/save-state.ts";
import type { BoardDocument } from "#shared/document/board-document.ts";
import { type AskClosed, fatesOf } from "./carry-over.ts";
import type { Place } from "./generations.ts";
import type { KeptEntry, LocalBoard } from "./local-board.ts";
import type { replay } from "./replay.ts";
import type { SaveStatus } from "./save-status.ts";

export interface SyncOutbox extends Outbox {
  /** Takes in what is on the server's disk: client → clock. */
  readonly acknowledge: (durable: ReadonlyMap<number, number>) => void;
  /** Clients whose changes wait to be acknowledged. */
  readonly waiting: () => ReadonlySet<number>;
  /**
   * Runs again what neither this device's document nor the server's holds any more, and what waits from an earlier
   * season. Call when the document has everything the server has, never before: until then a missing change may just
   * not have arrived. Resolves to true when something that was run again now waits to be acknowledged.
   */
  readonly recover: () => Promise<boolean>;
  /** Takes over what another outbox of the same board still holds, apart from what was here already. */
  readonly take: Take;
  /** Gives up what is not saved, refused changes included, and from now on whatever is kept: to whoever goes on. */
  readonly handOver: (take: Take) => void;
  /** From now on nothing is stored on this device any more. */
  readonly close: () => void;
}

/**
 * `stored`: they lie in this device's storage, where another tab may have seen to them; what is not there any more is
 * saved.
 */
export type Take = (entries: readonly KeptEntry[], stored: boolean) => Promise<void>;

export interface OutboxParts {
  readonly ydoc: Y.Doc;
  readonly document: BoardDocument;
  readonly local: LocalBoard;
  readonly status: SaveStatus;
  /** What earlier visits left, oldest first. */
  readonly entries: readonly KeptEntry[];
  /** The board and the document this outbox writes to; absent = nothing is known of seasons. */
  readonly place?: Place;
  /** Absent = nobody can be asked. */
  readonly askClosed?: AskClosed;
  readonly loadReplay?: LoadReplay;
}

/** Runs a kept command again; null when it cannot be had now. */
export type LoadReplay = () => Promise<typeof replay | null>;

/** Every command there is comes along, so a page without lost changes does without. */
const loadFromServer: LoadReplay = async () => {
  try {
    return (await import("./replay.ts")).replay;
  } catch {
    // No signal, and this part is not on the device: the changes wait, and the next agreement tries again.
    return null;
  }
};

/** How many saved changes are remembered as such; about older ones nobody asks. */
const SAVED_REMEMBERED = 200;

const toRefused = ({ id, name, refusal = "" }: KeptEntry): RefusedChange => ({
  id,
  command: name,
  sentence: refusal,
});

export const createOutbox = (parts: OutboxParts): SyncOutbox => {
  const { ydoc, document, local, status, entries, place } = parts;
  const { askClosed = async () => null, loadReplay = loadFromServer } = parts;
  const pending = new Map<string, KeptEntry>();
  const refused = new Map<string, KeptEntry>();
  const saved = new Set<string>();
  const stored = new Set(entries.map(({ id }) => id));
  /** Kept when nothing could be stored any more. */
  const late = new Set<string>();
  let closed = false;
  let troubled = false;
  local.onTrouble(() => {
    troubled = true;
  });
  let successor: Take | null = null;
  let recovering: Promise<boolean> | null = null;
  for (const entry of entries) (entry.refusal === undefined ? pending : refused).set(entry.id, entry);

  const documentOf = (entry: KeptEntry): string => entry.document ?? place?.board ?? "";
  const isEarlier = (entry: KeptEntry): boolean =>
    place !== undefined && documentOf(entry) !== place.document;
  const here = (): readonly KeptEntry[] => [...pending.values()].filter((entry) => !isEarlier(entry));
  /** An entry as it stands after it was written into this document. */
  const stamped = (entry: Omit<KeptEntry, "client" | "clock">): KeptEntry => ({
    ...entry,
    client: ydoc.clientID,
    clock: clockOf(ydoc.clientID),
    ...(place === undefined ? {} : { document: place.document }),
  });
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

  const rerun = (run: typeof replay, entry: KeptEntry): void => {
    const refusal = run(document, entry);
    // Where nothing had to be written, the next flush of the server makes sure of what it has sent us.
    const after = stamped(entry);
    if (refusal === null) pending.set(entry.id, after);
    else {
      pending.delete(entry.id);
      refused.set(entry.id, { ...after, refusal });
    }
    local.keep(refusal === null ? after : { ...after, refusal });
  };

  const settle = (done: readonly KeptEntry[]): void => {
    if (done.length === 0) return;
    for (const { id } of done) markSaved(id);
    local.drop(done.map(({ id }) => id));
    publish();
  };

  const lost = (): readonly KeptEntry[] => here().filter(({ client, clock }) => clockOf(client) < clock);
  const earlier = (): readonly KeptEntry[] => [...pending.values()].filter(isEarlier);

  const recover = async (): Promise<boolean> => {
    const run = await loadReplay();
    // Meanwhile they may have arrived, or somebody else has taken over.
    if (run === null || successor !== null || closed) return false;
    const again = lost();
    for (const entry of again) rerun(run, entry);
    if (again.length > 0) publish();
    const waiting = earlier();
    const carried = waiting.length > 0 && (await carryOver(run, waiting));
    return carried || again.length > 0;
  };

  const carryOver = async (run: typeof replay, earlier: readonly KeptEntry[]): Promise<boolean> => {
    const fates = await fatesOf({ entries: earlier, documentOf, askClosed, local, stored });
    settle(earlier.filter(({ id }) => fates.get(id) === "saved"));
    for (const entry of earlier) {
      const fate = fates.get(entry.id);
      if (fate === "run again") rerun(run, entry);
      else if (typeof fate === "object") pending.set(entry.id, fate);
    }
    publish();
    return [...fates.values()].some((fate) => fate !== "later" && fate !== "saved");
  };

  publish();
  return {
    keep: (entry) => {
      const kept = stamped(entry);
      if (successor !== null) return void successor([kept], false);
      if (closed) late.add(entry.id);
      pending.set(entry.id, kept);
      local.keep(kept);
      publish();
    },
    acknowledge: (durable) =>
      settle(here().filter(({ client, clock }) => (durable.get(client) ?? -1) >= clock)),
    waiting: () => new Set(here().map(({ client }) => client)),
    recover: () => {
      if (lost().length === 0 && earlier().length === 0) return Promise.resolve(false);
      recovering ??= recover().finally(() => {
        recovering = null;
      });
      return recovering;
    },
    take: async (others, inStorage) => {
      const there = new Map((await local.load()).entries.map((entry) => [entry.id, entry]));
      for (const entry of others) {
        if (pending.has(entry.id) || refused.has(entry.id) || saved.has(entry.id) || stored.has(entry.id))
          continue;
        const now = inStorage && local.lasting ? there.get(entry.id) : entry;
        if (now === undefined) continue;
        (now.refusal === undefined ? pending : refused).set(now.id, now);
        if (now === entry) local.keep(entry);
        else stored.add(now.id);
      }
      publish();
    },
    handOver: (take) => {
      successor = take;
      const all = [...refused.values(), ...pending.values()];
      const safe = (entry: KeptEntry): boolean => local.lasting && !troubled && !late.has(entry.id);
      void take(all.filter(safe), true);
      void take(
        all.filter((entry) => !safe(entry)),
        false,
      );
    },
    close: () => {
      closed = true;
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
