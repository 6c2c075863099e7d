import { useCallback, useRef } from "react";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { useBoardStore } from "#client/store/hooks.ts";
import { withReady } from "#client/store/ready-of.ts";
import { createSongViews, type SongView } from "#client/store/song-view.ts";
import { sameViewpoint, type Viewpoint, viewpointAt } from "#client/store/viewpoint.ts";
import type { Gig } from "#shared/board/band.ts";
import { type GigOutlook, gigOutlook, sameOutlook } from "#shared/selectors/gig-outlook.ts";

export interface GigReading {
  readonly gig: Gig;
  readonly outlook: GigOutlook;
}

interface Eyes {
  readonly views: (song: string, viewpoint: Viewpoint) => SongView | null;
  viewpoint: Viewpoint | null;
}

const same = (a: GigReading | null, b: GigReading | null): boolean =>
  a === b || (a !== null && b !== null && a.gig === b.gig && sameOutlook(a.outlook, b.outlook));

/**
 * One gig and how it stands, seen from its own night whatever gig the other screens look ahead to.
 * Null when it is not on the board.
 */
export const useGig = (id: string): GigReading | null => {
  const store = useBoardStore();
  const eyes = useRef<Eyes | null>(null);
  const select = useCallback(
    ({ board }: BoardReading): GigReading | null => {
      const gig = board.gigs.find((candidate) => candidate.id === id);
      if (gig === undefined) return null;
      eyes.current ??= { views: createSongViews(store), viewpoint: null };
      const { views, viewpoint: last } = eyes.current;
      const next = viewpointAt(board, store.now(), id);
      const viewpoint = last !== null && sameViewpoint(last, next) ? last : next;
      eyes.current.viewpoint = viewpoint;
      const { songs, chairs, people, band } = board;
      const reading = (song: string) => {
        const view = views(song, viewpoint);
        return view === null ? null : withReady(view);
      };
      return { gig, outlook: gigOutlook({ gig, songs, chairs, people, settings: band.settings, reading }) };
    },
    [store, id],
  );
  return useBoardSlice(select, same);
};
