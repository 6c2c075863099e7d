import { createContext, type ReactNode, useContext, useEffect, useMemo } from "react";
import type { BoardStore } from "./board-store.ts";
import { createSongViews, type SongView } from "./song-view.ts";
import { createViewpointStore, type ViewpointStore } from "./viewpoint-store.ts";

interface BoardContextValue {
  readonly boardId: string;
  readonly store: BoardStore;
  readonly viewpoints: ViewpointStore;
  readonly songView: (song: string) => SongView | null;
}

const BoardContext = createContext<BoardContextValue | null>(null);

/** Gives the screens below it their board. */
export const BoardProvider = ({
  boardId,
  store,
  children,
}: {
  readonly boardId: string;
  readonly store: BoardStore;
  readonly children: ReactNode;
}) => {
  const value = useMemo(() => {
    const viewpoints = createViewpointStore(store, boardId);
    const views = createSongViews(store);
    return {
      boardId,
      store,
      viewpoints,
      songView: (song: string) => views(song, viewpoints.current()),
    };
  }, [store, boardId]);
  // Midnight passes while a phone lies on a music stand.
  useEffect(() => {
    const timer = window.setInterval(value.viewpoints.refresh, 60_000);
    return () => window.clearInterval(timer);
  }, [value]);
  return <BoardContext value={value}>{children}</BoardContext>;
};

/** The board of the screen. Throws outside a BoardProvider. */
export const useBoardContext = (): BoardContextValue => {
  const value = useContext(BoardContext);
  if (value === null) throw new Error("No board: this screen must stand inside a BoardProvider.");
  return value;
};
