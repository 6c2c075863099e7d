/** A member's phone: the real session and store over a disk that survives restarts. */
import * as Y from "yjs";
import { type BoardStore, createBoardStore, type OwnChange } from "#client/store/board-store.ts";
import { createIdentity } from "#client/store/identity.ts";
import { type BoardSession, type BoardSessionOptions, openBoardSession } from "#client/sync/board-session.ts";
import type { KeptEntry, LocalBoard } from "#client/sync/local-board.ts";
import { replay } from "#client/sync/replay.ts";
import type { Role } from "#shared/protocol/api.ts";
import type { FakeNetwork } from "./fake-network.ts";

/** What a phone has stored of the board. */
export interface Disk {
  updates: Uint8Array[];
  entries: Map<string, KeptEntry>;
  asOf: number | null;
  /** Entries that were dropped because the server had acknowledged them. */
  readonly acknowledged: KeptEntry[];
}

export const createDisk = (): Disk => ({ updates: [], entries: new Map(), asOf: null, acknowledged: [] });

/** A local board on a disk in memory; stores at once, like a browser that was given the time. */
export const localOn = (disk: Disk): LocalBoard => {
  let bound: Y.Doc | null = null;
  const onUpdate = (update: Uint8Array): void => void disk.updates.push(update);
  return {
    lasting: true,
    load: async () => ({ entries: [...disk.entries.values()], unreadable: 0, asOf: disk.asOf }),
    open: async () => {
      const ydoc = new Y.Doc();
      for (const update of disk.updates) Y.applyUpdate(ydoc, update);
      bound = ydoc;
      ydoc.on("update", onUpdate);
      return ydoc;
    },
    setAside: async (whole) => {
      bound?.off("update", onUpdate);
      disk.updates = whole === null ? [] : [whole];
    },
    keep: (entry) => void disk.entries.set(entry.id, structuredClone(entry)),
    drop: (ids) => {
      for (const id of ids) {
        const entry = disk.entries.get(id);
        if (entry !== undefined) disk.acknowledged.push(entry);
        disk.entries.delete(id);
      }
    },
    keepAsOf: (moment) => {
      disk.asOf = moment;
    },
    onTrouble: () => {},
    onMended: () => {},
    close: async () => {
      bound?.off("update", onUpdate);
    },
  };
};

export interface Phone {
  readonly name: string;
  readonly disk: Disk;
  readonly session: () => BoardSession;
  readonly store: () => BoardStore;
  /** Own changes of all visits that can still be taken back. */
  readonly changes: OwnChange[];
  /** Closes the page and opens it again. */
  readonly restart: () => Promise<void>;
  readonly close: () => Promise<void>;
}

export interface PhoneOptions extends Pick<BoardSessionOptions, "serverUrl" | "claimOf"> {
  readonly network: Pick<FakeNetwork, "socketFor">;
  readonly name: string;
  readonly board?: string;
  readonly role?: Role;
  /** The name of its role unless given, for servers that let everybody in. */
  readonly token?: string;
  readonly member?: string | null;
  /** The device's own name in what it writes, which all its tabs share; its name here unless given. */
  readonly writer?: string;
  /** The phone's own clock, ms; the clock of all unless given. */
  readonly now?: () => number;
  readonly disk?: Disk;
  /** Where the phone keeps the board; a disk in memory unless given. */
  readonly openLocal?: (board: string) => Promise<LocalBoard>;
}

export const BOARD = "six-spare-fuses";

/** Opens a phone on the board; its commands' ids are `name` and a number, so that traces can be read. */
export const openPhone = async (options: PhoneOptions): Promise<Phone> => {
  const { network, name, board = BOARD, role = "leader", member = null, disk = createDisk() } = options;
  const { openLocal = async () => localOn(disk), token = role, serverUrl = "ws://board.test" } = options;
  const { now = Date.now, writer = name } = options;
  const signals = { listen: () => () => {} };
  let commands = 0;
  let again: Promise<void> = Promise.resolve();
  const open = async (mended = false) => {
    const session = await openBoardSession({
      loadReplay: async () => replay,
      known: { board, document: board, token, role },
      serverUrl,
      openLocal,
      ...(options.claimOf === undefined ? {} : { claimOf: options.claimOf }),
      WebSocketPolyfill: network.socketFor(name),
      random: () => 0.5,
      signals,
      now,
      mended,
      onSetAside: () => {
        again = restart(true);
      },
    });
    const store = createBoardStore({
      document: session.document,
      outbox: session.outbox,
      identity: createIdentity({ member, writer, role }),
      now,
      newId: () => {
        commands += 1;
        return `${name}-${commands}`;
      },
    });
    return { session, store };
  };
  let current = await open();
  const close = async (): Promise<void> => {
    current.store.close();
    await current.session.close();
  };
  const restart = async (mended: boolean): Promise<void> => {
    await close();
    current = await open(mended);
  };
  return {
    name,
    disk,
    session: () => current.session,
    store: () => current.store,
    changes: [],
    restart: async () => {
      await again;
      await restart(false);
    },
    close: async () => {
      await again;
      await close();
    },
  };
};
