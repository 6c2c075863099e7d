import type * as Y from "yjs";
import type { OutboxEntry } from "#client/store/save-state.ts";

/** A command in the outbox with what tells whether it is saved. */
export interface KeptEntry extends OutboxEntry {
  /** Yjs client that wrote it. */
  readonly client: number;
  /** The client's clock right after it: saved once the server has everything below on disk. */
  readonly clock: number;
  /** Why it could not be replayed; absent while it still may be saved. */
  readonly refusal?: string;
}

/**
 * What this device keeps of one board between visits: the document, the outbox, and when it last equalled the
 * server's. Governing rule: nothing here throws at its users; what cannot be kept is reported through `onTrouble`.
 */
export interface LocalBoard {
  /** False when nothing outlives the page. */
  readonly lasting: boolean;
  /** Entries in the order they were kept, and the moment (ms) of the last agreement with the server. */
  readonly load: () => Promise<{ readonly entries: readonly KeptEntry[]; readonly asOf: number | null }>;
  /** Fills the document with what is stored and from then on stores what is added. Resolves when it is filled. */
  readonly bind: (ydoc: Y.Doc) => Promise<void>;
  /** Keeps an entry, or replaces the one with the same id. */
  readonly keep: (entry: KeptEntry) => void;
  readonly drop: (ids: readonly string[]) => void;
  readonly keepAsOf: (moment: number) => void;
  /** Called with a sentence when something could not be kept. */
  readonly onTrouble: (listener: (sentence: string) => void) => void;
  /** Resolves when everything handed over is stored. */
  readonly close: () => Promise<void>;
}

/** A board that is forgotten with the page. */
export const createFleetingBoard = (): LocalBoard => ({
  lasting: false,
  load: async () => ({ entries: [], asOf: null }),
  bind: async () => {},
  keep: () => {},
  drop: () => {},
  keepAsOf: () => {},
  onTrouble: () => {},
  close: async () => {},
});
