import { useEffect, useState } from "react";
import { type BoardStore, createBoardStore } from "#client/store/board-store.ts";
import { createIdentity } from "#client/store/identity.ts";
import { createPresenceStore, type PresenceStore } from "#client/store/presence.ts";
import { type BoardSession, openBoardSession } from "#client/sync/board-session.ts";
import type { KnownBoard } from "#client/sync/device.ts";
import { randomId } from "#client/sync/random-id.ts";
import { device } from "./device.ts";

/** A board that is open on this device. */
export interface OpenBoard {
  readonly known: KnownBoard;
  readonly session: BoardSession;
  readonly store: BoardStore;
  readonly presence: PresenceStore;
}

const openStore = (known: KnownBoard, session: BoardSession): BoardStore =>
  createBoardStore({
    document: session.document,
    outbox: session.outbox,
    identity: createIdentity({ member: known.memberId, writer: device.writer, role: known.role }),
    now: Date.now,
    newId: randomId,
  });

/** How long (ms) a page may be out of sight before its person counts as gone. */
const AWAY_MS = 30_000;

/** Whoever puts the phone away is soon no longer there. */
const followPage = (presence: PresenceStore): (() => void) => {
  let leaving: ReturnType<typeof setTimeout> | undefined;
  const look = (): void => {
    clearTimeout(leaving);
    if (document.visibilityState === "visible") presence.setAway(false);
    else leaving = setTimeout(() => presence.setAway(true), AWAY_MS);
  };
  document.addEventListener("visibilitychange", look);
  look();
  return () => {
    clearTimeout(leaving);
    document.removeEventListener("visibilitychange", look);
  };
};

/**
 * Opens a known board from this device and closes it when the screen goes elsewhere. Null until what this device
 * keeps of it is read; the server may answer later.
 */
export const useOpenBoard = (board: string): OpenBoard | null => {
  const [open, setOpen] = useState<OpenBoard | null>(null);
  useEffect(() => {
    const known = device.board(board);
    if (known === null) return;
    let gone = false;
    let closing: () => Promise<void> = async () => {};
    device.update(board, { lastOpened: Date.now() });
    const start = async (mended: boolean): Promise<void> => {
      const session = await openBoardSession({ known, mended, onSetAside: () => void startAgain() });
      const store = openStore(known, session);
      const presence = createPresenceStore(session.presence, store.identity);
      const stopWatching = followPage(presence);
      closing = async () => {
        stopWatching();
        presence.close();
        store.close();
        await session.close();
      };
      if (gone) void closing();
      else setOpen({ known, session, store, presence });
    };
    const startAgain = async (): Promise<void> => {
      if (gone) return;
      setOpen(null);
      await closing();
      await start(true);
    };
    void start(false);
    return () => {
      gone = true;
      void closing();
      setOpen(null);
    };
  }, [board]);
  return open;
};
