import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { withReady } from "#client/store/ready-of.ts";
import { type GigOutlook, gigOutlook, sameOutlook } from "#shared/selectors/gig-outlook.ts";

const select = ({ board, viewpoint: { gig }, songView }: BoardReading): GigOutlook | null =>
  gig === null
    ? null
    : gigOutlook({
        gig,
        songs: board.songs,
        chairs: board.chairs,
        people: board.people,
        settings: board.band.settings,
        reading: (song) => {
          const view = songView(song);
          return view === null ? null : withReady(view);
        },
      });

const same = (a: GigOutlook | null, b: GigOutlook | null): boolean =>
  a === b || (a !== null && b !== null && sameOutlook(a, b));

/** How the gig we look ahead to stands; null without a gig. Renders again only when something it says changes. */
export const useOutlook = (): GigOutlook | null => useBoardSlice(select, same);
