import * as Y from "yjs";
import { type BoardDocument, createBoardDocument } from "#shared/document/board-document.ts";
import { migrationsCurrent } from "#shared/document/migrations/migrate.ts";

/** What a document is, as one update, for a snapshot. */
export interface WholeDocument {
  readonly bytes: Uint8Array;
  /** Encoded. */
  readonly stateVector: Uint8Array;
  /** True when it has been through every migration of this release. */
  readonly current: boolean;
}

/** True where a key of a map had a value before and has none after. */
const emptiesKey = (transaction: Y.Transaction): boolean => {
  for (const [type, keys] of transaction.changed)
    for (const key of keys) {
      const last = key === null ? undefined : type._map.get(key);
      if (last === undefined || !Y.isDeleted(transaction.deleteSet, last.id)) continue;
      if (last.id.clock < (transaction.beforeState.get(last.id.client) ?? 0)) return true;
    }
  return false;
};

/** A document in memory. What still waits for an earlier change is kept apart: it is never stored and never passed on. */
export class LiveDocument {
  readonly #doc: Y.Doc;
  #changed: Uint8Array[] = [];
  #board: BoardDocument | null = null;
  #emptied = false;

  constructor(doc: Y.Doc) {
    this.#doc = doc;
    doc.on("update", (update: Uint8Array) => void this.#changed.push(update));
    doc.on("afterTransaction", (transaction: Y.Transaction) => {
      if (doc.store.pendingStructs === null && emptiesKey(transaction)) this.#emptied = true;
    });
  }

  get doc(): Y.Doc {
    return this.#doc;
  }

  get board(): BoardDocument {
    this.#board ??= createBoardDocument(this.#doc);
    return this.#board;
  }

  /** False for a document that an older release wrote. An empty one has no shape yet. */
  get current(): boolean {
    return this.isEmpty || migrationsCurrent(this.board);
  }

  get isEmpty(): boolean {
    return this.#doc.store.clients.size === 0;
  }

  /** Encoded. */
  get stateVector(): Uint8Array {
    return Y.encodeStateVector(this.#doc);
  }

  get heads(): Map<number, number> {
    return Y.decodeStateVector(this.stateVector);
  }

  clockOf(client: number): number {
    return Y.getState(this.#doc.store, client);
  }

  /**
   * Takes an update in; answers what it changed, as updates. Throws for an update that breaks the document, which
   * cannot be trusted any more then.
   */
  apply(update: Uint8Array): readonly Uint8Array[] {
    this.#emptied = false;
    Y.applyUpdate(this.#doc, update);
    // No device deletes a key: its commands write over what is there.
    if (this.#emptied) throw new Error("An update takes a value away and puts none in its place");
    return this.#taken();
  }

  /** Lets `change` write, in one transaction. The document cannot be trusted any more when it throws. */
  change<T>(change: (board: BoardDocument) => T): {
    readonly value: T;
    readonly updates: readonly Uint8Array[];
  } {
    const value = this.#doc.transact(() => change(this.board));
    return { value, updates: this.#taken() };
  }

  /** Hands over what changed, and keeps none of it: hundreds of documents would each hold on to their last change. */
  #taken(): readonly Uint8Array[] {
    const changed = this.#changed;
    this.#changed = [];
    return changed;
  }

  /** What a client with this encoded state vector lacks. */
  missingFor(stateVector: Uint8Array): Uint8Array {
    return this.#withoutGaps(() => Y.encodeStateAsUpdate(this.#doc, stateVector));
  }

  whole(): WholeDocument {
    const bytes = this.#withoutGaps(() => Y.encodeStateAsUpdate(this.#doc));
    return { bytes, stateVector: this.stateVector, current: this.current };
  }

  /** Bytes that wait for an earlier change. */
  get gapBytes(): number {
    const { pendingStructs, pendingDs } = this.#doc.store;
    return (pendingStructs?.update.length ?? 0) + (pendingDs?.length ?? 0);
  }

  dropGaps(): void {
    this.#doc.store.pendingStructs = null;
    this.#doc.store.pendingDs = null;
  }

  destroy(): void {
    this.#doc.destroy();
  }

  /** The encoder would send along what waits, and every device would then wait for it as well. */
  #withoutGaps<T>(encode: () => T): T {
    const { store } = this.#doc;
    const { pendingStructs, pendingDs } = store;
    this.dropGaps();
    try {
      return encode();
    } finally {
      store.pendingStructs = pendingStructs;
      store.pendingDs = pendingDs;
    }
  }
}
