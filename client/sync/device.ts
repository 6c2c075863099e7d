/**
 * What this device knows about itself and its boards, in the browser's local storage. Where storage is forbidden
 * everything works until the page is closed.
 */
import * as v from "valibot";
import { type Id, isId } from "#shared/board/ids.ts";
import { ROLES, type Role } from "#shared/protocol/api.ts";
import { randomId } from "./random-id.ts";

/** A board this device has been let into. */
export interface KnownBoard {
  readonly board: Id;
  /** The document of the season this device last heard of. */
  readonly document: Id;
  /** Opens the board for this device; keep it out of addresses and logs. */
  readonly token: string;
  readonly role: Role;
  /** The person this device belongs to on that board; null until somebody picked their name. */
  readonly memberId: Id | null;
  /** True when this device may read what is private to its person. */
  readonly confirmed: boolean;
  /** Moment (ms, server clock) at which this way in ends by itself; null = never. */
  readonly expiresAt: number | null;
  readonly name: string;
  /** Device clock, ms. */
  readonly lastOpened: number;
}

export interface Device {
  /** Names this device in registers; the same on every board and for every tab. */
  readonly writer: Id;
  /** False when nothing outlives the page: private window, storage forbidden or full. */
  readonly remembers: boolean;
  /** Known boards, last opened first. */
  readonly boards: () => readonly KnownBoard[];
  readonly board: (id: Id) => KnownBoard | null;
  /** Adds a board, or replaces what was known about it. */
  readonly remember: (known: KnownBoard) => void;
  /** Changes some of what is known; a board that is not known stays unknown. */
  readonly update: (id: Id, changes: Partial<Omit<KnownBoard, "board">>) => void;
  /** Calls back after each change of what is known. Other tabs' changes come as the window's storage event. */
  readonly subscribe: (listener: () => void) => () => void;
  /** Forgets the way in. The board's local copy is deleted by `deleteLocalBoard`. */
  readonly forget: (id: Id) => void;
}

const WRITER_KEY = "tightrow.writer";
const BOARDS_KEY = "tightrow.boards";

/** What older versions of the page stored has none of the optional ones; a board's first document has its own id. */
const KNOWN = v.pipe(
  v.object({
    board: v.custom<Id>(isId),
    document: v.optional(v.custom<Id>(isId)),
    token: v.string(),
    role: v.picklist(ROLES),
    memberId: v.nullable(v.custom<Id>(isId)),
    confirmed: v.optional(v.boolean(), false),
    expiresAt: v.optional(v.nullable(v.number()), null),
    name: v.string(),
    lastOpened: v.number(),
  }),
  v.transform((known): KnownBoard => ({ ...known, document: known.document ?? known.board })),
);

/** The browser's local storage, or null where touching it is forbidden. */
const browserStorage = (): Storage | null => {
  try {
    return globalThis.localStorage ?? null;
  } catch {
    return null;
  }
};

/** Reads and writes texts; falls back to memory from the first failure on. */
const createShelf = (storage: Storage | null) => {
  const memory = new Map<string, string>();
  let failed = storage === null;
  return {
    remembers: (): boolean => !failed,
    read: (key: string): string | null => {
      try {
        return memory.get(key) ?? storage?.getItem(key) ?? null;
      } catch {
        failed = true;
        return null;
      }
    },
    write: (key: string, text: string): void => {
      try {
        if (storage === null) throw new Error("No storage");
        storage.setItem(key, text);
        memory.delete(key);
        failed = false;
      } catch {
        failed = true;
        memory.set(key, text);
      }
    },
  };
};

/** Entries that cannot be read are left out: a broken list must not lock a person out of their other boards. */
const parseBoards = (text: string | null): readonly KnownBoard[] => {
  try {
    const list: unknown = JSON.parse(text ?? "[]");
    if (!Array.isArray(list)) return [];
    return list.flatMap((entry) => {
      const known = v.safeParse(KNOWN, entry);
      return known.success ? [known.output] : [];
    });
  } catch {
    return [];
  }
};

/** Opens this device's memory. `storage` null = memory only. */
export const openDevice = (storage: Storage | null = browserStorage()): Device => {
  const shelf = createShelf(storage);
  // Read afresh each time, because other tabs write here too.
  const boards = (): readonly KnownBoard[] =>
    [...parseBoards(shelf.read(BOARDS_KEY))].sort((a, b) => b.lastOpened - a.lastOpened);
  const listeners = new Set<() => void>();
  const save = (list: readonly KnownBoard[]): void => {
    shelf.write(BOARDS_KEY, JSON.stringify(list));
    for (const listener of listeners) listener();
  };
  const without = (id: Id): readonly KnownBoard[] => boards().filter(({ board }) => board !== id);
  const board = (id: Id): KnownBoard | null => boards().find((known) => known.board === id) ?? null;

  const stored = shelf.read(WRITER_KEY);
  const writer = isId(stored) ? stored : randomId();
  if (stored !== writer) shelf.write(WRITER_KEY, writer);

  return {
    writer,
    get remembers() {
      return shelf.remembers();
    },
    boards,
    board,
    remember: (known) => save([...without(known.board), known]),
    update: (id, changes) => {
      const known = board(id);
      if (known !== null) save([...without(id), { ...known, ...changes }]);
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    forget: (id) => save(without(id)),
  };
};
