import { StorageRefusal } from "./storage.ts";
import type { StoredUpdate, UpdateLog } from "./update-log.ts";

interface KeptDocument {
  /** All rows since the first, pruned ones left out; a row is archived when a snapshot holds it. */
  readonly rows: StoredUpdate[];
  /** Oldest first. */
  readonly snapshots: StoredUpdate[];
}

/** The log in memory, with a way to append inside other work. */
export interface MemoryLog extends UpdateLog {
  close(): void;
}

export const createMemoryLog = (): MemoryLog => {
  const documents = new Map<string, KeptDocument>();
  let seq = 0;
  let closed = false;

  const kept = (document: string): KeptDocument => documents.get(document) ?? { rows: [], snapshots: [] };
  const requireOpen = (): void => {
    if (closed) throw new StorageRefusal("The storage is closed");
  };
  const loadAt = (document: string, upTo: number): readonly StoredUpdate[] => {
    const { rows, snapshots } = kept(document);
    const snapshot = snapshots.findLast((s) => s.seq <= upTo);
    const after = rows.filter((row) => row.seq > (snapshot?.seq ?? 0) && row.seq <= upTo);
    return snapshot === undefined ? after : [snapshot, ...after];
  };
  const foldedTo = (document: string): number => kept(document).snapshots.at(-1)?.seq ?? 0;

  return {
    append(update) {
      requireOpen();
      seq += 1;
      const { rows, snapshots } = kept(update.document);
      rows.push({ ...update, bytes: update.bytes.slice(), seq, snapshot: null });
      documents.set(update.document, { rows, snapshots });
      return seq;
    },
    async flush() {
      requireOpen();
    },
    load: async (document) => loadAt(document, Number.MAX_SAFE_INTEGER),
    async compact(document, { upTo, at, bytes, stateVector, schema }) {
      requireOpen();
      const { rows, snapshots } = kept(document);
      const facts = { stateVector: stateVector.slice(), schema };
      snapshots.push({
        document,
        seq: upTo,
        device: "server",
        member: null,
        at,
        bytes: bytes.slice(),
        snapshot: facts,
      });
      documents.set(document, { rows, snapshots });
    },
    async history(document, { after = 0, before = Number.MAX_SAFE_INTEGER, limit }) {
      const rows = kept(document).rows.filter((row) => row.seq > after && row.seq < before);
      return limit === undefined ? rows : rows.slice(Math.max(0, rows.length - limit));
    },
    loadAt: async (document, upTo) => loadAt(document, upTo),
    async prune(before) {
      requireOpen();
      let forgotten = 0;
      for (const [document, { rows, snapshots }] of documents) {
        if (snapshots.length < 2) continue;
        const base = snapshots.findLastIndex((s) => s.at < before);
        const stay = snapshots.slice(Math.max(0, Math.min(base, snapshots.length - 2)));
        const first = stay[0]?.seq ?? 0;
        const left = rows.filter((row) => row.seq > first || row.at >= before);
        forgotten += rows.length - left.length;
        documents.set(document, { rows: left, snapshots: stay });
      }
      return forgotten;
    },
    async forget(document) {
      requireOpen();
      documents.delete(document);
    },
    async usage(document) {
      const folded = foldedTo(document);
      const { rows, snapshots } = kept(document);
      const tail = rows.filter((row) => row.seq > folded);
      const archived = rows.filter((row) => row.seq <= folded);
      const bytesOf = (list: readonly StoredUpdate[]): number =>
        list.reduce((sum, { bytes }) => sum + bytes.length, 0);
      return {
        bytes: bytesOf(tail) + bytesOf(snapshots.slice(-1)),
        rows: tail.length,
        archivedRows: archived.length,
        archivedBytes: bytesOf(archived),
      };
    },
    close() {
      closed = true;
    },
  };
};
