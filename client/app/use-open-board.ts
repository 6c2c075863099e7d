import { useEffect, useState } from "react";
import { type BoardStore, createBoardStore } from "#client/store/board-store.ts";
import { createIdentity } from "#client/store/identity.ts";
import { type BoardSession, openBoardSession } from "#client/sync/board-session.ts";
import type { KnownBoard } from "#client/sync/device.ts";
import { followBoard, type OpenSession } from "#client/sync/follow-board.ts";
import { dropOtherDocuments } from "#client/sync/local-persistence.ts";
import { randomId } from "#client/sync/random-id.ts";
import { device } from "./device.ts";
import { server } from "./server.ts";

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

/** A session with everything the screens have on it. */
const dress = ({ known, session }: OpenSession): OpenBoard => ({
  known,
  session,
  store: openStore(known, session),
});

/**
 * Opens a known board from this device, follows it into new seasons and roles, and closes it when the screen goes
 * elsewhere. Null until what this device keeps of it is read; the server may answer later.
 */
export const useOpenBoard = (board: string): OpenBoard | null => {
  const [open, setOpen] = useState<OpenBoard | null>(null);
  useEffect(() => {
    let dressed: OpenBoard | null = null;
    device.update(board, { lastOpened: Date.now() });
    const followed = followBoard({
      board,
      device,
      api: server,
      open: openBoardSession,
      dropOthers: dropOtherDocuments,
      onOpen: (next) => {
        dressed?.store.close();
        dressed = dress(next);
        setOpen(dressed);
      },
      onPerson: ({ memberId }) => dressed?.store.identity.become(memberId),
    });
    return () => {
      dressed?.store.close();
      void followed.close();
      setOpen(null);
    };
  }, [board]);
  return open;
};
