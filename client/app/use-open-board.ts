import { useEffect, useState } from "react";
import { type BoardStore, createBoardStore } from "#client/store/board-store.ts";
import { createIdentity } from "#client/store/identity.ts";
import { createPresenceStore, type PresenceStore } from "#client/store/presence.ts";
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

/** A session with everything the screens have on it. */
const dress = ({ known, session }: OpenSession): OpenBoard & { readonly undress: () => void } => {
  const store = openStore(known, session);
  const presence = createPresenceStore(session.presence, store.identity);
  const stopWatching = followPage(presence);
  const undress = (): void => {
    stopWatching();
    presence.close();
    store.close();
  };
  return { known, session, store, presence, undress };
};

/**
 * Opens a known board from this device, follows it into new seasons and roles, and closes it when the screen goes
 * elsewhere. Null until what this device keeps of it is read; the server may answer later.
 */
export const useOpenBoard = (board: string): OpenBoard | null => {
  const [open, setOpen] = useState<OpenBoard | null>(null);
  useEffect(() => {
    let dressed: ReturnType<typeof dress> | null = null;
    device.update(board, { lastOpened: Date.now() });
    const followed = followBoard({
      board,
      device,
      api: server,
      open: openBoardSession,
      dropOthers: dropOtherDocuments,
      onOpen: (next) => {
        dressed?.undress();
        dressed = dress(next);
        setOpen(dressed);
      },
      onPerson: ({ memberId }) => dressed?.store.identity.become(memberId),
    });
    return () => {
      dressed?.undress();
      void followed.close();
      setOpen(null);
    };
  }, [board]);
  return open;
};
