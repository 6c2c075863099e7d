/**
 * A device whose tabs share what a browser shares between them: local storage, locks and the stored board. Every
 * change that a tab itself makes is entered in a ledger, by client id and clock.
 */
import type * as Y from "yjs";
import { type BoardSession, openBoardSession } from "#client/sync/board-session.ts";
import type { ClientClaim } from "#client/sync/client-id.ts";
import { clientMemoryIn } from "#client/sync/client-memory.ts";
import type { LocalBoard } from "#client/sync/local-board.ts";
import { replay } from "#client/sync/replay.ts";
import type { Role } from "#shared/protocol/api.ts";
import type { FakeNetwork } from "./fake-network.ts";
import { BOARD, createDisk, type Disk, localOn } from "./phone.ts";

/** `client:clock` of every struct that was ever made, by whoever made it. */
export interface Ledger {
  readonly made: Map<string, string>;
  /** Structs that were made twice. */
  readonly twice: string[];
}

export const createLedger = (): Ledger => ({ made: new Map(), twice: [] });

/** Enters whatever the document itself changes from now on. */
export const follow = (ledger: Ledger, ydoc: Y.Doc, tab: string): void => {
  ydoc.on("afterTransaction", ({ local, beforeState, afterState }: Y.Transaction) => {
    if (!local) return;
    for (const [client, after] of afterState)
      for (let clock = beforeState.get(client) ?? 0; clock < after; clock++) {
        const struct = `${client}:${clock}`;
        const before = ledger.made.get(struct);
        if (before !== undefined) ledger.twice.push(`${struct} by ${before} and ${tab}`);
        ledger.made.set(struct, tab);
      }
  });
};

/** The browser's storage over a map that outlives its pages. */
export const storageOver = (kept: Map<string, string>): Storage => ({
  get length() {
    return kept.size;
  },
  clear: () => kept.clear(),
  getItem: (key) => kept.get(key) ?? null,
  key: (n) => [...kept.keys()][n] ?? null,
  removeItem: (key) => void kept.delete(key),
  setItem: (key, text) => void kept.set(key, text),
});

/** What the tabs of one browser have for a board: its storage, and a lock that one of them can hold. */
export const sharedClaims = (storage: Map<string, string>) => {
  let holder: string | null = null;
  return (tab: string) =>
    (board: string): ClientClaim => ({
      memory: clientMemoryIn(storageOver(storage), board),
      takeLock: async () => {
        if (holder !== null) return null;
        holder = tab;
        return () => {
          if (holder === tab) holder = null;
        };
      },
    });
};

export interface Tab {
  readonly name: string;
  readonly session: BoardSession;
  /** Writes one key; its value names the tab. */
  readonly write: (key?: string) => void;
  readonly close: () => Promise<void>;
  /**
   * Ends the page in the middle of everything: what was not flushed to the disk is gone. What it had sent is lost
   * with the connection, or still arrives later.
   */
  readonly crash: (sent: "lost" | "arrives") => Promise<void>;
}

export interface SharedDevice {
  readonly disk: Disk;
  readonly storage: Map<string, string>;
  readonly tabs: Tab[];
  readonly open: () => Promise<Tab>;
  /** Writes to the disk what the tabs have handed over. */
  readonly flush: () => void;
}

export interface SharedDeviceOptions {
  readonly network: FakeNetwork;
  readonly name: string;
  readonly ledger: Ledger;
  readonly role?: Role;
  /** False: a browser without Web Locks, as over plain http. */
  readonly locks?: boolean;
  readonly lasting?: boolean;
}

export const createSharedDevice = (options: SharedDeviceOptions): SharedDevice => {
  const { network, name, ledger, role = "member", locks = true, lasting = true } = options;
  const disk = createDisk();
  const storage = new Map<string, string>();
  const tabs: Tab[] = [];
  const waiting = new Map<string, Uint8Array[]>();
  const claims = sharedClaims(storage);
  let opened = 0;

  /** The disk of one page: what it stores waits until the device flushes. */
  const lagging = (tab: string): LocalBoard => {
    const queue: Uint8Array[] = [];
    waiting.set(tab, queue);
    const local = localOn({ ...disk, entries: new Map() });
    let stop = (): void => {};
    return {
      ...local,
      lasting,
      open: async () => {
        const ydoc = await localOn({ ...disk, updates: [...disk.updates] }).open();
        const keep = (update: Uint8Array): void => void queue.push(update);
        ydoc.on("update", keep);
        stop = () => ydoc.off("update", keep);
        return ydoc;
      },
      close: async () => stop(),
    };
  };

  const flush = (): void => {
    for (const queue of waiting.values()) disk.updates.push(...queue.splice(0));
  };

  const open = async (): Promise<Tab> => {
    opened += 1;
    const tab = `${name}.${opened}`;
    const session = await openBoardSession({
      loadReplay: async () => replay,
      known: { board: BOARD, document: BOARD, token: role, role },
      serverUrl: "ws://board.test",
      openLocal: async () => lagging(tab),
      claimOf: locks ? claims(tab) : () => null,
      WebSocketPolyfill: network.socketFor(tab),
      random: () => 0.5,
      signals: { listen: () => () => {} },
    });
    follow(ledger, session.ydoc, tab);
    let writes = 0;
    const leave = (): void => {
      tabs.splice(tabs.indexOf(page), 1);
      waiting.delete(tab);
    };
    const page: Tab = {
      name: tab,
      session,
      write: (key = `key${writes % 3}`) => {
        writes += 1;
        session.document.transact(tab, (set) => set("band", key, `${tab} ${writes}`));
      },
      close: async () => {
        await session.close();
        flush();
        leave();
      },
      crash: async (sent) => {
        if (sent === "lost") network.cut(tab);
        waiting.get(tab)?.splice(0);
        await session.close();
        leave();
      },
    };
    tabs.push(page);
    return page;
  };
  return { disk, storage, tabs, open, flush };
};
