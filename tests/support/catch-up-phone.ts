/** A member's phone on the demo board, as far as it keeps what they know. */
import * as Y from "yjs";
import { type BoardStore, createBoardStore } from "#client/store/board-store.ts";
import { type CatchUpStore, openCatchUp } from "#client/store/catch-up-store.ts";
import { createIdentity } from "#client/store/identity.ts";
import { createLocalOutbox } from "#client/store/save-state.ts";
import { knownShelf } from "#client/sync/known-shelf.ts";
import { seedDemo } from "#shared/demo/seed-demo.ts";
import { createBoardDocument } from "#shared/document/board-document.ts";
import type { Digest } from "#shared/selectors/catch-up/digest.ts";

export const NOON = Date.UTC(2026, 2, 2, 12);

let seeded: Uint8Array | null = null;

/** The demo band's document, worked out once a file. */
export const demoDocument = (): Y.Doc => {
  const ydoc = new Y.Doc();
  if (seeded === null) {
    seedDemo(ydoc, NOON, "Europe/Lisbon");
    seeded = Y.encodeStateAsUpdate(ydoc);
  } else Y.applyUpdate(ydoc, seeded);
  return ydoc;
};

/** A copy of a document under another id, as another device or a restored copy has it. */
export const copyOf = (ydoc: Y.Doc): Y.Doc => {
  const copy = new Y.Doc();
  Y.applyUpdate(copy, Y.encodeStateAsUpdate(ydoc));
  return copy;
};

export interface Phone {
  readonly store: BoardStore;
  readonly catchUp: CatchUpStore;
}

let commands = 0;

/** Somebody's store over a document; `at` is their clock. */
export const storeOn = (ydoc: Y.Doc, member: string, at = NOON): BoardStore =>
  createBoardStore({
    document: createBoardDocument(ydoc),
    outbox: createLocalOutbox(),
    identity: createIdentity({ member, writer: `device of ${member}`, role: "leader" }),
    now: () => at,
    newId: () => `done-${++commands}`,
  });

/** Opens the board for a member, with what their device keeps. Everything is worked out at once. */
export const openPhone = async (board: string, ydoc: Y.Doc, member: string, at = NOON): Promise<Phone> => {
  const store = storeOn(ydoc, member, at);
  const catchUp = await openCatchUp({
    store,
    member,
    writer: `device of ${member}`,
    shelf: knownShelf(board, member),
    inSlices: (steps, done) => {
      for (;;) {
        const step = steps.next();
        if (!step.done) continue;
        done(step.value);
        return () => {};
      }
    },
  });
  return { store, catchUp };
};

/** What is news on a phone right now. */
export const newsOn = ({ catchUp }: Phone): Digest => {
  const { digest } = catchUp.state();
  if (digest === null) throw new Error("The digest is not worked out.");
  return digest;
};
