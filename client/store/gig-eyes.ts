/** Looks at songs from one gig's own night, whatever gig the screens look ahead to. */
import type { Gig } from "#shared/board/band.ts";
import type { Board } from "#shared/board/board.ts";
import type { BoardStore } from "./board-store.ts";
import { createSongViews, type SongView } from "./song-view.ts";
import { sameViewpoint, type Viewpoint, viewpointAt } from "./viewpoint.ts";

export interface GigSight {
  readonly viewpoint: Viewpoint;
  /** Null for a song that is not on the board. */
  readonly view: (song: string) => SongView | null;
}

/** Looks at the songs of a board from a gig: by its id as it stands, or as it is supposed to be. */
export type GigEyes = (board: Board, gig: string | Gig) => GigSight;

/**
 * Remembers the last view of each song; the viewpoint keeps its reference while it is the same. Two gigs that are looked
 * at in turn want eyes of their own each.
 */
export const createGigEyes = (store: BoardStore): GigEyes => {
  const views = createSongViews(store);
  let last: Viewpoint | null = null;
  return (board, gig) => {
    const next =
      typeof gig === "string"
        ? viewpointAt(board, store.now(), gig)
        : { ...viewpointAt(board, store.now(), gig.id), gig };
    const viewpoint = last !== null && sameViewpoint(last, next) ? last : next;
    last = viewpoint;
    return { viewpoint, view: (song) => views(song, viewpoint) };
  };
};
