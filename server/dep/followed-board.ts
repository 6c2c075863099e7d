import type { Board } from "#shared/board/board.ts";
import type { BoardDocument, Written } from "#shared/document/board-document.ts";
import { type BoardReader, createBoardReader } from "#shared/document/read/board-reader.ts";
import type { RootMap } from "#shared/document/root-maps.ts";

/** A document's board, read once as long as its room lives; afterwards only what was touched is read again. */
export interface FollowedBoard {
  readonly board: () => Board;
  /** Takes in writes of a transaction that is still running, which the document has told nobody about yet. */
  readonly took: (written: readonly Written[]) => void;
}

/** Reading a whole board takes a few hundred milliseconds, so it is done once per room. */
const followed = new WeakMap<BoardDocument, FollowedBoard>();

export const followBoard = (document: BoardDocument): FollowedBoard => {
  const known = followed.get(document);
  if (known !== undefined) return known;
  const follower = createFollower(document, createBoardReader(document));
  followed.set(document, follower);
  return follower;
};

const createFollower = (document: BoardDocument, reader: BoardReader): FollowedBoard => {
  let waiting = new Map<RootMap, Set<string>>();
  const note = (map: RootMap, key: string): void => {
    const keys = waiting.get(map);
    if (keys === undefined) waiting.set(map, new Set([key]));
    else keys.add(key);
  };
  document.onTouched((touched) => {
    for (const [map, keys] of touched) for (const key of keys) note(map, key);
  });
  return {
    board: () => {
      if (waiting.size === 0) return reader.board();
      const touched = waiting;
      waiting = new Map();
      return reader.refresh(touched);
    },
    took: (written) => {
      for (const { map, key } of written) note(map, key);
    },
  };
};
