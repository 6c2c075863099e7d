import { useCallback, useMemo } from "react";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { createGigEyes } from "#client/store/gig-eyes.ts";
import { useBoardStore } from "#client/store/hooks.ts";
import { withReady } from "#client/store/ready-of.ts";
import type { Gig } from "#shared/board/band.ts";
import { type GigOutlook, gigOutlook, sameOutlook } from "#shared/selectors/gig-outlook.ts";

export interface GigReading {
  readonly gig: Gig;
  readonly outlook: GigOutlook;
}

const same = (a: GigReading | null, b: GigReading | null): boolean =>
  a === b || (a !== null && b !== null && a.gig === b.gig && sameOutlook(a.outlook, b.outlook));

/**
 * One gig and how it stands, seen from its own night whatever gig the other screens look ahead to.
 * Null when it is not on the board.
 */
export const useGig = (id: string): GigReading | null => {
  const store = useBoardStore();
  const eyes = useMemo(() => createGigEyes(store), [store]);
  const select = useCallback(
    ({ board }: BoardReading): GigReading | null => {
      const gig = board.gigs.find((candidate) => candidate.id === id);
      if (gig === undefined) return null;
      const { view: viewOf } = eyes(board, id);
      const { songs, chairs, people, band } = board;
      const reading = (song: string) => {
        const view = viewOf(song);
        return view === null ? null : withReady(view);
      };
      return { gig, outlook: gigOutlook({ gig, songs, chairs, people, settings: band.settings, reading }) };
    },
    [eyes, id],
  );
  return useBoardSlice(select, same);
};
