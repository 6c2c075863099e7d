/** A reading over many songs that renders again only when it changes: for sums, orders and column heads. */
import { useCallback, useRef, useSyncExternalStore } from "react";
import type { Board } from "#shared/board/board.ts";
import { useBoardContext } from "./board-context.tsx";
import type { SongView } from "./song-view.ts";
import type { Viewpoint } from "./viewpoint.ts";

/** What a slice is read from. */
export interface BoardReading {
  readonly board: Board;
  readonly viewpoint: Viewpoint;
  readonly songView: (song: string) => SongView | null;
}

interface Kept<T> {
  readonly board: Board;
  readonly viewpoint: Viewpoint;
  readonly select: (reading: BoardReading) => T;
  readonly slice: T;
}

/**
 * Reads a slice of the whole board. `select` runs once per change of the board, of the viewpoint or of `select`
 * itself, which must therefore be stable between renders. The slice keeps its reference while `isEqual` says so.
 */
export const useBoardSlice = <T>(
  select: (reading: BoardReading) => T,
  isEqual: (a: T, b: T) => boolean = Object.is,
): T => {
  const { store, viewpoints, songView } = useBoardContext();
  const kept = useRef<Kept<T> | null>(null);
  const subscribe = useCallback(
    (listener: () => void) => {
      const stops = [store.subscribe("board", listener), viewpoints.subscribe(listener)];
      return () => {
        for (const stop of stops) stop();
      };
    },
    [store, viewpoints],
  );
  const read = (): T => {
    const board = store.board();
    const viewpoint = viewpoints.current();
    const last = kept.current;
    if (last?.board === board && last.viewpoint === viewpoint && last.select === select) return last.slice;
    const next = select({ board, viewpoint, songView });
    const slice = last !== null && isEqual(last.slice, next) ? last.slice : next;
    kept.current = { board, viewpoint, select, slice };
    return slice;
  };
  return useSyncExternalStore(subscribe, read);
};
