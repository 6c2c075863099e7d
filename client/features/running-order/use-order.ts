import { useCallback, useRef } from "react";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { useBoardStore } from "#client/store/hooks.ts";
import { readyOf } from "#client/store/ready-of.ts";
import { createSongViews, type SongView } from "#client/store/song-view.ts";
import { sameViewpoint, type Viewpoint, viewpointAt } from "#client/store/viewpoint.ts";
import type { Gig } from "#shared/board/band.ts";
import type { SetBrief, SetOrder } from "#shared/order/set-facts.ts";
import { orderBrief, orderOf } from "#shared/selectors/running-order.ts";

export interface GigOrder {
  readonly gig: Gig;
  readonly brief: SetBrief;
  /** The order that stands. */
  readonly order: SetOrder;
  /** Songs of the brief that are gig-ready or let pass. */
  readonly ready: readonly string[];
}

const same = (a: GigOrder | null, b: GigOrder | null): boolean =>
  a === b ||
  (a !== null && b !== null && a.gig === b.gig && JSON.stringify(a.brief) === JSON.stringify(b.brief));

interface Eyes {
  readonly views: (song: string, viewpoint: Viewpoint) => SongView | null;
  viewpoint: Viewpoint | null;
}

/** A gig's running order and everything the search needs, seen from its own night; null when it is not on the board. */
export const useOrder = (id: string): GigOrder | null => {
  const store = useBoardStore();
  const eyes = useRef<Eyes | null>(null);
  const select = useCallback(
    ({ board }: BoardReading): GigOrder | null => {
      const gig = board.gigs.find((candidate) => candidate.id === id);
      if (gig === undefined) return null;
      eyes.current ??= { views: createSongViews(store), viewpoint: null };
      const { views, viewpoint: last } = eyes.current;
      const next = viewpointAt(board, store.now(), id);
      const viewpoint = last !== null && sameViewpoint(last, next) ? last : next;
      eyes.current.viewpoint = viewpoint;
      const ready = new Set<string>();
      const brief = orderBrief({
        board,
        gig,
        reading: (song) => {
          const view = views(song, viewpoint);
          if (view === null) return null;
          const stands = readyOf(view).ready;
          if (stands) ready.add(song);
          return { night: view.night.score, ready: stands };
        },
      });
      return { gig, brief, order: orderOf(gig), ready: [...ready] };
    },
    [store, id],
  );
  return useBoardSlice(select, same);
};
