import type { Board } from "../board/board.ts";
import type { BoardDocument, Touched } from "../document/board-document.ts";
import { type BoardReader, createBoardReader } from "../document/read/board-reader.ts";
import type { RootMap } from "../document/root-maps.ts";
import type { History } from "./history.ts";
import { placeOf, walkHistory } from "./past-values.ts";

/** The board at any moment of a history. Read-only; records that did not change between two moments keep their reference. */
export interface PastBoards {
  /** The board after row `seq`; before the first row, the state the history starts from. */
  readonly at: (seq: number) => Board;
}

/** Boards read ahead of the one asked for, because who goes back one step goes back another. */
const AHEAD = 32;
/** Boards kept. They share what did not change, so one costs little. */
const KEPT = 512;

/**
 * Forward, each step re-reads only what it touched. Backward, one reading from scratch serves the next 32 steps.
 */
export const createPastBoards = (history: History): PastBoards => {
  const walk = walkHistory(history);
  const document: BoardDocument = {
    get: walk.get,
    entries: walk.entries,
    transact: () => {
      throw new Error("The past cannot be written");
    },
    onTouched: () => () => {},
  };
  const kept = new Map<number, Board>();
  let reader: BoardReader | null = null;

  const keep = (board: Board): Board => {
    kept.set(walk.place(), board);
    const [oldest] = kept.keys();
    if (kept.size > KEPT && oldest !== undefined) kept.delete(oldest);
    return board;
  };
  const readAfresh = (place: number): BoardReader => {
    walk.goTo(place);
    const fresh = createBoardReader(document);
    keep(fresh.board());
    return fresh;
  };
  const touchedUntil = (place: number): Touched => {
    const touched = new Map<RootMap, Set<string>>();
    for (const { changes } of history.steps.slice(walk.place(), place))
      for (const { map, key } of changes) touched.set(map, (touched.get(map) ?? new Set()).add(key));
    return touched;
  };
  const advance = (by: BoardReader, place: number): Board => {
    const touched = touchedUntil(place);
    walk.goTo(place);
    return keep(by.refresh(touched));
  };

  return {
    at: (seq) => {
      const place = placeOf(history, seq);
      const known = kept.get(place);
      if (known !== undefined) return known;
      const from = Math.max(0, place - AHEAD);
      if (reader === null || walk.place() > place) reader = readAfresh(from);
      else if (walk.place() < from) advance(reader, from);
      while (walk.place() < place) advance(reader, walk.place() + 1);
      return kept.get(place) ?? reader.board();
    },
  };
};

/** The board after one row of a history, for a single look. */
export const boardAt = (history: History, seq: number): Board => createPastBoards(history).at(seq);
