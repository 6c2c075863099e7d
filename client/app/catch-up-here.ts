import { useEffect, useState } from "react";
import { inSlices } from "#client/pieces/in-slices.ts";
import type { BoardStore } from "#client/store/board-store.ts";
import { type CatchUpStore, openCatchUp } from "#client/store/catch-up-store.ts";
import { useAuthor, useSaveFact } from "#client/store/hooks.ts";
import { knownShelf } from "#client/sync/known-shelf.ts";
import { useOpenBoardHere } from "./open-board-context.ts";
import type { OpenBoard } from "./use-open-board.ts";

const opened = new WeakMap<BoardStore, Map<string, Promise<CatchUpStore>>>();

/** Everything a generator yields, and what it returns at the end, as steps of one kind. */
function* withResult<T, R>(steps: Iterator<T, R>): Generator<R | undefined, void> {
  for (;;) {
    const { done, value } = steps.next();
    if (done) {
      yield value;
      return;
    }
    yield undefined;
  }
}

/**
 * What this device's member knows of an open board; one for as long as it is open. Null while the device is nobody's,
 * or has not yet had everything from the server: then it could not tell what is new.
 */
export const catchUpHere = ({ known, session, store }: OpenBoard): Promise<CatchUpStore> | null => {
  const { member, writer } = store.identity.author();
  if (member === null || session.outbox.saveState().asOf === null) return null;
  const members = opened.get(store) ?? new Map<string, Promise<CatchUpStore>>();
  opened.set(store, members);
  const there = members.get(member);
  if (there !== undefined) return there;
  const opening = openCatchUp({
    store,
    member,
    writer,
    shelf: knownShelf(known.board, member),
    inSlices: (steps, done) =>
      inSlices(withResult(steps), (found) => {
        const result = found.at(-1);
        if (result !== undefined) done(result);
      }),
  });
  members.set(member, opening);
  return opening;
};

/** The same for a screen; null until it is there. */
export const useCatchUpHere = (): CatchUpStore | null => {
  const board = useOpenBoardHere();
  const { member } = useAuthor();
  const arrived = useSaveFact(({ asOf }) => asOf !== null);
  const [catchUp, setCatchUp] = useState<CatchUpStore | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another person, and the first time everything is here
  useEffect(() => {
    let gone = false;
    setCatchUp(null);
    void catchUpHere(board)?.then((found) => !gone && setCatchUp(found));
    return () => {
      gone = true;
    };
  }, [board, member, arrived]);
  return catchUp;
};
