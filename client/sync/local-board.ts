import * as Y from "yjs";
import type { OutboxEntry } from "#client/store/save-state.ts";
import type { Id } from "#shared/board/ids.ts";

/** A command in the outbox with what tells whether it is saved. */
export interface KeptEntry extends OutboxEntry {
  /** Yjs client that wrote it. */
  readonly client: number;
  /** The client's clock right after it: saved once the server has everything below on disk. */
  readonly clock: number;
  /** The document it was written into; absent = the board's first. */
  readonly document?: Id;
  /** Why it could not be replayed; absent while it still may be saved. */
  readonly refusal?: string;
}

/** What a device has of a board besides the document. */
export interface LoadedBoard {
  /** In the order they were kept. */
  readonly entries: readonly KeptEntry[];
  /** Entries that are kept and cannot be read. */
  readonly unreadable: number;
  /** Moment (ms) of the last agreement with the server. */
  readonly asOf: number | null;
}

/**
 * What this device keeps of one board between visits: the document, the outbox, and when it last equalled the
 * server's. Governing rule: nothing here throws at its users; what cannot be kept is reported through `onTrouble`.
 */
export interface LocalBoard {
  /** False when nothing outlives the page. */
  readonly lasting: boolean;
  readonly load: () => Promise<LoadedBoard>;
  /** A document filled with what is stored; what is added to it from then on is stored. */
  readonly open: () => Promise<Y.Doc>;
  /**
   * Puts the stored document aside and begins another, with `whole` or with nothing, for the next visit. The present
   * one stores nothing more.
   */
  readonly setAside: (whole: Uint8Array | null) => Promise<void>;
  /** Keeps an entry, or replaces the one with the same id. */
  readonly keep: (entry: KeptEntry) => void;
  readonly drop: (ids: readonly string[]) => void;
  readonly keepAsOf: (moment: number) => void;
  /** Called with a sentence when something could not be kept. */
  readonly onTrouble: (listener: (sentence: string) => void) => void;
  /** Called with a sentence when something was found broken and dealt with. */
  readonly onMended: (listener: (sentence: string) => void) => void;
  /** Resolves when everything handed over is stored. */
  readonly close: () => Promise<void>;
}

/** A board that is forgotten with the page. */
export const createFleetingBoard = (): LocalBoard => ({
  lasting: false,
  load: async () => ({ entries: [], unreadable: 0, asOf: null }),
  open: async () => new Y.Doc(),
  setAside: async () => {},
  keep: () => {},
  drop: () => {},
  keepAsOf: () => {},
  onTrouble: () => {},
  onMended: () => {},
  close: async () => {},
});
