import { useEffect, useState } from "react";
import { type BoardStore, createBoardStore } from "#client/store/board-store.ts";
import { createIdentity } from "#client/store/identity.ts";
import { type BoardSession, openBoardSession } from "#client/sync/board-session.ts";
import type { KnownBoard } from "#client/sync/device.ts";
import { randomId } from "#client/sync/random-id.ts";
import { device } from "./device.ts";

/** A board that is open on this device. */
export interface OpenBoard {
  readonly known: KnownBoard;
  readonly session: BoardSession;
  readonly store: BoardStore;
}

const openStore = (known: KnownBoard, session: BoardSession): BoardStore =>
  createBoardStore({
    document: session.document,
    outbox: session.outbox,
    identity: createIdentity({ member: known.memberId, writer: device.writer, role: known.role }),
    now: Date.now,
    newId: randomId,
  });

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
      closing = async () => {
        store.close();
        await session.close();
      };
      if (gone) void closing();
      else setOpen({ known, session, store });
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
