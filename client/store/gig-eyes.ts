/** Looks at songs from one gig's own night, whatever gig the screens look ahead to. */
import type { Board } from "#shared/board/board.ts";
import type { BoardStore } from "./board-store.ts";
import { createSongViews, type SongView } from "./song-view.ts";
import { sameViewpoint, type Viewpoint, viewpointAt } from "./viewpoint.ts";

export interface GigSight {
  readonly viewpoint: Viewpoint;
  /** Null for a song that is not on the board. */
  readonly view: (song: string) => SongView | null;
}

/** Remembers the last view of each song; the viewpoint keeps its reference while it is the same. */
export const createGigEyes = (store: BoardStore): ((board: Board, gig: string) => GigSight) => {
  const views = createSongViews(store);
  let last: Viewpoint | null = null;
  return (board, gig) => {
    const next = viewpointAt(board, store.now(), gig);
    const viewpoint = last !== null && sameViewpoint(last, next) ? last : next;
    last = viewpoint;
    return { viewpoint, view: (song) => views(song, viewpoint) };
  };
};
