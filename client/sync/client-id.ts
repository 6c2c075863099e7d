/**
 * One Yjs client id per device and board, taken up again visit after visit: every id that ever wrote makes each change
 * dearer for everybody, for good.
 *
 * Governing rule: two structs under one id and clock would part the replicas for ever, so an id is taken up only where
 * nothing written under it can be missing here. All of this must hold: this tab has the board to itself (Web Lock),
 * the document is loaded and has everything the server has, its clock for the id is the one this device remembers
 * from its last write, and the server knows of no later one. At any doubt the visit keeps the fresh random id it began
 * with, and that one is remembered instead. The clock is remembered before the change is sent or stored: a clock
 * that runs ahead of the document tells of a change that got lost, and the id is never used again.
 */
import { uint32 } from "lib0/random";
import * as Y from "yjs";
import type { ClientMemory, KnownClient } from "./client-memory.ts";

/** What one device and board have, for all their tabs. */
export interface ClientClaim {
  readonly memory: ClientMemory;
  /** Takes the board for this tab alone; null when another tab has it. Otherwise how to give it back. */
  readonly takeLock: () => Promise<(() => void) | null>;
}

export interface ClientId {
  /** The document has everything the server has. `ask` sends a durable query on that connection. */
  readonly synced: (ask: (client: number) => void) => void;
  readonly unsynced: () => void;
  /** How far clients' changes are on the server's disk. */
  readonly heard: (durable: ReadonlyMap<number, number>) => void;
  /** Goes on under a fresh id and lets other tabs have the board. */
  readonly letGo: () => void;
  /** Lets go for good. */
  readonly close: () => void;
}

const NONE: ClientId = {
  synced: () => {},
  unsynced: () => {},
  heard: () => {},
  letGo: () => {},
  close: () => {},
};

/** Follows the document's own writes. Without a claim the document keeps its random id, as on a guest's device. */
export const createClientId = (ydoc: Y.Doc, claim: ClientClaim | null): ClientId => {
  if (claim === null) return NONE;
  const { memory, takeLock } = claim;
  const clockOf = (client: number): number => Y.getState(ydoc.store, client);
  let giveBack: (() => void) | null = null;
  /** The id that is remembered for this device while this tab has the lock. */
  let own: number | null = null;
  let asked: KnownClient | null = null;
  let round = 0;

  const settleOn = (client: number): void => {
    own = client;
    memory.write({ client, clock: clockOf(client) });
  };
  /** Runs before Yjs hands the change to anybody who sends or stores it. */
  const remember = (transaction: Y.Transaction): void => {
    if (own === null || !transaction.local) return;
    const clock = transaction.afterState.get(own) ?? 0;
    if (clock !== (transaction.beforeState.get(own) ?? 0)) memory.write({ client: own, clock });
  };
  /** Yjs leaves an id under which a change comes in from outside: somebody else writes under it, too. */
  const followYjs = (): void => {
    if (own !== null && ydoc.clientID !== own) settleOn(ydoc.clientID);
  };
  ydoc.on("afterTransaction", remember);
  ydoc.on("afterTransactionCleanup", followYjs);

  const isWhole = (known: KnownClient): boolean =>
    clockOf(known.client) === known.clock && ydoc.store.pendingStructs === null;

  const begin = async (ask: (client: number) => void): Promise<void> => {
    round += 1;
    const begun = round;
    const release = giveBack ?? (await takeLock());
    if (round !== begun) {
      if (giveBack === null) release?.();
      return;
    }
    giveBack = release;
    if (release === null || own !== null) return;
    const known = memory.read();
    if (known === null || !isWhole(known)) return settleOn(ydoc.clientID);
    asked = known;
    ask(known.client);
  };
  const letGo = (): void => {
    round += 1;
    asked = null;
    if (own !== null) ydoc.clientID = freshClient(ydoc);
    own = null;
    giveBack?.();
    giveBack = null;
  };

  return {
    synced: (ask) => void begin(ask),
    unsynced: () => {
      round += 1;
      asked = null;
    },
    heard: (durable) => {
      if (asked === null) return;
      const known = asked;
      const there = durable.get(known.client);
      if (there === undefined) return;
      asked = null;
      // Between question and answer another page or device may have written.
      const now = memory.read();
      const same = now?.client === known.client && now.clock === known.clock;
      if (same && there <= known.clock && isWhole(known)) ydoc.clientID = known.client;
      settleOn(ydoc.clientID);
    },
    letGo,
    close: () => {
      letGo();
      ydoc.off("afterTransaction", remember);
      ydoc.off("afterTransactionCleanup", followYjs);
    },
  };
};

const freshClient = (ydoc: Y.Doc): number => {
  for (;;) {
    const client = uint32();
    if (Y.getState(ydoc.store, client) === 0) return client;
  }
};
