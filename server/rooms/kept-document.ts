import * as Y from "yjs";
import type { Id } from "#shared/board/ids.ts";
import { SCHEMA } from "#shared/document/migrations/migrate.ts";
import { type Log, whyOf } from "../log.ts";
import type { Metrics } from "../metrics/metrics.ts";
import { type Storage, StorageRefusal } from "../storage/storage.ts";
import type { StoredUpdate } from "../storage/update-log.ts";
import type { Connection } from "./connection.ts";
import { LiveDocument } from "./live-document.ts";
import { replay } from "./replay.ts";
import { readFacts, type StoredFacts, wholeFrames } from "./stored-document.ts";

/** Whom the log names for a change. */
export interface Author {
  readonly device: Id;
  readonly member: Id | null;
}

/** A change that is in the document. */
export interface Change {
  readonly update: Uint8Array;
  readonly by: Author;
  /** The connection that brought it; null = the server's own. */
  readonly from: Connection | null;
}

export interface KeptParts {
  readonly document: Id;
  readonly storage: Storage;
  readonly log: Log;
  readonly metrics: Metrics;
  /** Server time, ms. */
  readonly clock: () => number;
  /** Time that only moves on, ms. */
  readonly elapsed: () => number;
  /** The change has its place in the log now. */
  readonly onStored: (change: Change) => void;
  /** The document can be read no more: whoever is here must come again. */
  readonly onLost: () => void;
}

/** How far a document goes. */
export interface KnownHeads {
  readonly clockOf: (client: number) => number;
  /** Encoded. */
  readonly stateVector: () => Uint8Array;
}

/** Merging more rows than this for one who joins costs as much as writing the document out. */
const MERGED_BYTES = 262_144;

interface Waiting {
  readonly run: (live: LiveDocument) => void;
  readonly fail: (error: unknown) => void;
}

/**
 * A document and its log. The document itself is in memory only while something needs it: whoever comes with nothing is
 * served from the stored rows, and how far these go is known without it.
 * Governing rule: what is asked while the document is being read waits, and is answered in the order it came.
 */
export class KeptDocument {
  readonly #parts: KeptParts;
  #facts: StoredFacts;
  #live: LiveDocument | null = null;
  /** Rows that were just read, for the first who asks. */
  #fresh: readonly StoredUpdate[] | null;
  #reading = false;
  #waiting: Waiting[] = [];
  readonly #backlog: Change[] = [];
  #storing = true;
  #folding = false;
  #shut = false;
  #usedAt = 0;

  private constructor(parts: KeptParts, rows: readonly StoredUpdate[]) {
    this.#parts = parts;
    this.#fresh = rows;
    this.#facts = readFacts(rows);
    if (this.#facts.heads === null) this.#live = this.#build(rows);
  }

  /** Rejects with StorageRefusal when the log cannot be read. */
  static async open(parts: KeptParts): Promise<KeptDocument> {
    return new KeptDocument(parts, await parts.storage.load(parts.document));
  }

  get live(): LiveDocument | null {
    return this.#live;
  }

  /** What its stored rows come to, as far as they were counted. */
  get facts(): StoredFacts {
    return this.#facts;
  }

  /** Moment (ms) at which somebody needed the document last; housekeeping does not count. */
  get usedAt(): number {
    return this.#usedAt;
  }

  touch(): void {
    this.#usedAt = this.#parts.elapsed();
  }

  /** False while the storage refuses its changes. */
  get storing(): boolean {
    return this.#storing;
  }

  /** True while something is left to do that must not be cut short. */
  get busy(): boolean {
    return this.#backlog.length > 0 || this.#reading || this.#folding;
  }

  /**
   * Runs at once when the document is in memory; else when it has been read, before whatever is asked later. `fail` is
   * told when it cannot be read, or what a later run threw.
   */
  use(run: (live: LiveDocument) => void, fail: (error: unknown) => void = this.#noteFailure): void {
    if (this.#live === null) {
      this.#waiting.push({ run, fail });
      void this.#read();
    } else run(this.#live);
  }

  /** Like `use`, with an answer; rejects with what `run` threw, or with StorageRefusal. */
  ask<T>(run: (live: LiveDocument) => T): Promise<T> {
    return new Promise((resolve, reject) =>
      this.use((live) => {
        try {
          resolve(run(live));
        } catch (error) {
          reject(error instanceof Error ? error : new Error(whyOf(error)));
        }
      }, reject),
    );
  }

  /** Runs when it is known how far the document goes: mostly at once, without reading it. */
  whenKnown(run: (known: KnownHeads) => void): void {
    const { heads } = this.#facts;
    if (this.#live === null && heads !== null)
      run({
        clockOf: (client) => heads.get(client) ?? 0,
        stateVector: () => Y.encodeStateVector(new Map(heads)),
      });
    else
      this.use((live) =>
        run({ clockOf: (client) => live.clockOf(client), stateVector: () => live.stateVector }),
      );
  }

  /** True when all there is can be sent as it is stored. */
  get isServedFromRows(): boolean {
    const { heads, folded, tailBytes } = this.#facts;
    return this.#live === null ? heads !== null : folded && tailBytes <= MERGED_BYTES;
  }

  /** Answers with all there is for a device that has nothing. */
  sendWhole(send: (frame: Uint8Array) => void): void {
    const frames = (rows: readonly StoredUpdate[]): void =>
      wholeFrames(rows.map(({ bytes }) => bytes)).forEach(send);
    if (!this.isServedFromRows) this.use((live) => wholeFrames([live.whole().bytes]).forEach(send));
    else if (this.#fresh !== null) frames(this.#fresh);
    // What is stored after this reading is passed on to this device as well, as it is in the room already.
    else this.#parts.storage.load(this.#parts.document).then(frames, (error: unknown) => this.#lose(error));
  }

  /** Notes changes of the document for the log; `writeBacklog` stores them. */
  note(changes: readonly Change[]): void {
    this.#backlog.push(...changes);
  }

  /** Appends what waits to the log and tells of it; false while the storage refuses. */
  writeBacklog(): boolean {
    for (let change = this.#backlog[0]; change !== undefined; change = this.#backlog[0]) {
      try {
        this.append(change);
      } catch (error) {
        this.refused("not-stored", error);
        return false;
      }
      this.#storing = true;
      this.#backlog.shift();
      this.#parts.onStored(change);
    }
    return true;
  }

  /** Appends one change to the log. Throws StorageRefusal. */
  append({ update, by }: Pick<Change, "update" | "by">): void {
    const { storage, document, clock, metrics } = this.#parts;
    if (this.#shut) throw new StorageRefusal("This document was closed");
    const lastSeq = storage.append({ document, ...by, at: clock(), bytes: update });
    metrics.rows.add();
    metrics.rowBytes.add(update.length);
    const { bytes, tailRows, tailBytes, folded } = this.#facts;
    this.#facts = {
      lastSeq,
      bytes: bytes + update.length,
      tailRows: tailRows + 1,
      tailBytes: tailBytes + update.length,
      folded,
      // The document tells, as long as it is in memory.
      heads: null,
    };
    this.#fresh = null;
  }

  /** Makes all that was appended durable; false when the disk refuses. */
  async flush(): Promise<boolean> {
    const begun = performance.now();
    try {
      await this.#parts.storage.flush();
      this.#parts.metrics.flush.observe((performance.now() - begun) / 1000);
      this.#storing = this.#backlog.length === 0;
      return true;
    } catch (error) {
      this.refused("not-flushed", error);
      return false;
    }
  }

  refused(event: string, error: unknown): void {
    if (this.#storing) this.#parts.log.error(event, { document: this.#parts.document, why: whyOf(error) });
    this.#storing = false;
  }

  /** Forgets the document in memory, and what is not in the log with it, and reads it anew. */
  reload(): void {
    this.#live?.destroy();
    this.#live = null;
    this.#fresh = null;
    this.#backlog.length = 0;
    this.#facts = { ...this.#facts, heads: null };
    void this.#read();
  }

  /** Puts a snapshot before the stored rows; false when there is nothing to fold. Rejects with StorageRefusal. */
  async fold(): Promise<boolean> {
    const live = this.#live;
    if (this.#shut || live === null || live.isEmpty || this.busy || this.#facts.tailRows === 0) return false;
    const { storage, document, clock, metrics } = this.#parts;
    const begun = performance.now();
    const { bytes, stateVector, current } = live.whole();
    const before = this.#facts;
    this.#folding = true;
    try {
      // The rows are moved before this call comes back; what is awaited is the disk.
      const schema = current ? SCHEMA : 0;
      const snapshot = { upTo: before.lastSeq, at: clock(), bytes, stateVector, schema };
      const durable = storage.compact(document, snapshot);
      metrics.folding.observe((performance.now() - begun) / 1000);
      await durable;
    } finally {
      this.#folding = false;
    }
    const now = this.#facts;
    this.#facts = {
      lastSeq: now.lastSeq,
      bytes: bytes.length + now.bytes - before.bytes,
      tailRows: now.tailRows - before.tailRows,
      tailBytes: now.tailBytes - before.tailBytes,
      folded: true,
      heads: null,
    };
    return true;
  }

  /** Lets the document out of memory, when it can be served from its rows; false when something needs it. */
  cool(): boolean {
    const live = this.#live;
    if (live === null || this.busy || live.gapBytes > 0 || !live.current || this.#facts.tailRows > 0)
      return false;
    this.#facts = { ...this.#facts, heads: live.heads };
    live.destroy();
    this.#live = null;
    return true;
  }

  /** Lets nothing into the log any more: what was forgotten there must not come back. */
  shut(): void {
    this.#shut = true;
  }

  /** Work that comes with time. */
  tick(): void {
    // Rows that were just read are not kept for longer than a moment.
    this.#fresh = null;
    this.writeBacklog();
    if (!this.#storing && this.#backlog.length === 0) void this.flush();
  }

  readonly #noteFailure = (error: unknown): void =>
    this.#parts.log.error("document-not-used", { document: this.#parts.document, why: whyOf(error) });

  #build(rows: readonly StoredUpdate[]): LiveDocument {
    return new LiveDocument(replay(rows, this.#parts.log));
  }

  async #read(): Promise<void> {
    if (this.#reading) return;
    this.#reading = true;
    try {
      const rows = this.#fresh ?? (await this.#parts.storage.load(this.#parts.document));
      this.#facts = { ...readFacts(rows), heads: null };
      this.#live = this.#build(rows);
      this.#fresh = null;
    } catch (error) {
      this.#lose(error);
    } finally {
      this.#reading = false;
    }
    // One of those who waited may break the document; the others wait on then.
    while (this.#live !== null) {
      const next = this.#waiting.shift();
      if (next === undefined) return;
      try {
        next.run(this.#live);
      } catch (error) {
        next.fail(error);
      }
    }
  }

  #lose(error: unknown): void {
    this.#parts.log.error("board-not-opened", { document: this.#parts.document, why: whyOf(error) });
    const waiting = this.#waiting;
    this.#waiting = [];
    for (const { fail } of waiting) fail(error);
    this.#parts.onLost();
  }
}
