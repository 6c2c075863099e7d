import type { Id } from "#shared/board/ids.ts";

/**
 * The log of every document.
 * Governing rule: an update handed to `append` is in the log, in order, but only a `flush` that began afterwards and
 * resolved makes it durable; nothing may be acknowledged before that.
 *
 * A document is the fold of its updates in the order of `seq`. The log knows nothing about their content, and a snapshot
 * is itself an update, so folding old rows into one changes nothing above this interface.
 */
export interface UpdateLog {
  /**
   * Appends to the log and answers the row's place. Synchronous, so that a room can broadcast in the order of the log.
   * Throws StorageRefusal when it cannot be written; then nothing was.
   */
  append(update: NewUpdate): number;
  /** Resolves when all that was appended before the call is on the disk; rejects with StorageRefusal when not. */
  flush(): Promise<void>;
  /**
   * What folds to the document, in order: the newest whole snapshot, if there is one, and the rows after it. Empty for
   * an unknown document. A damaged snapshot is passed over for the one before it.
   */
  load(document: Id): Promise<readonly StoredUpdate[]>;
  /**
   * Puts a snapshot before the rows it holds, in one transaction: the rows up to `upTo` move to the archive, every
   * other row stays. The snapshot before it is kept, and earlier ones where the archive would be far to read without.
   * Killed at any moment, either all of it happened or nothing.
   */
  compact(document: Id, snapshot: NewSnapshot): Promise<void>;
  /** Rows of the archive and of the log, oldest first, without snapshots. */
  history(document: Id, range: HistoryRange): Promise<readonly StoredUpdate[]>;
  /** What folds to the document as it was right after row `seq`, in order: a snapshot, if there is one, and rows. */
  loadAt(document: Id, seq: number): Promise<readonly StoredUpdate[]>;
  /**
   * Forgets archived rows, of all documents, that were stored before the moment `before` (ms) and are held by a kept
   * snapshot; answers how many. What the document is now does not change, and a document with one snapshot keeps all
   * its rows, in case that one is damaged.
   */
  prune(before: number): Promise<number>;
  /** Forgets a document's log, archive and snapshots for good. */
  forget(document: Id): Promise<void>;
  /** What a document takes. */
  usage(document: Id): Promise<DocumentUsage>;
}

export interface NewUpdate {
  readonly document: Id;
  /** The device whose connection brought it; `server` for what the server itself wrote. */
  readonly device: Id;
  /** The person bound to that device at the time, when known. */
  readonly member: Id | null;
  /** Server time, ms. */
  readonly at: number;
  /** A Yjs update, encoding version 1. */
  readonly bytes: Uint8Array;
}

export interface StoredUpdate extends NewUpdate {
  /** Place in the log: ascending over all documents, never used twice. A snapshot has the place of its last row. */
  readonly seq: number;
  /** What a snapshot knows about itself; null for an ordinary row. */
  readonly snapshot: SnapshotFacts | null;
}

export interface SnapshotFacts {
  /** Encoded Yjs state vector of the snapshot. */
  readonly stateVector: Uint8Array;
  /** Number of migrations the document had been through. */
  readonly schema: number;
}

export interface NewSnapshot extends SnapshotFacts {
  /** Place of the last row it holds. */
  readonly upTo: number;
  /** Server time, ms. */
  readonly at: number;
  /** A Yjs update, encoding version 1. */
  readonly bytes: Uint8Array;
}

/** Rows with `after < seq < before`; of those the last `limit`. Absent = no bound. */
export interface HistoryRange {
  readonly after?: number;
  readonly before?: number;
  readonly limit?: number;
}

export interface DocumentUsage {
  /** Bytes of the newest snapshot and the rows after it. */
  readonly bytes: number;
  /** Rows after the newest snapshot. */
  readonly rows: number;
  /** Rows in the archive, and their bytes. */
  readonly archivedRows: number;
  readonly archivedBytes: number;
}
