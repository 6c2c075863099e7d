import { useCallback, useMemo } from "react";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { createGigEyes } from "#client/store/gig-eyes.ts";
import { useBoardStore } from "#client/store/hooks.ts";
import { readyOf } from "#client/store/ready-of.ts";
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

/** A gig's running order and everything the search needs, seen from its own night; null when it is not on the board. */
export const useOrder = (id: string): GigOrder | null => {
  const store = useBoardStore();
  const eyes = useMemo(() => createGigEyes(store), [store]);
  const select = useCallback(
    ({ board }: BoardReading): GigOrder | null => {
      const gig = board.gigs.find((candidate) => candidate.id === id);
      if (gig === undefined) return null;
      const { view: viewOf } = eyes(board, id);
      const ready = new Set<string>();
      const brief = orderBrief({
        board,
        gig,
        reading: (song) => {
          const view = viewOf(song);
          if (view === null) return null;
          const stands = readyOf(view).ready;
          if (stands) ready.add(song);
          return { night: view.night.score, ready: stands };
        },
      });
      return { gig, brief, order: orderOf(gig), ready: [...ready] };
    },
    [eyes, id],
  );
  return useBoardSlice(select, same);
};
