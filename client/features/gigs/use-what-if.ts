import { useCallback, useMemo, useRef } from "react";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { useBoardStore } from "#client/store/hooks.ts";
import { withReady } from "#client/store/ready-of.ts";
import { createSongViews, type SongView } from "#client/store/song-view.ts";
import { type Viewpoint, viewpointAt } from "#client/store/viewpoint.ts";
import type { Gig } from "#shared/board/band.ts";
import { namesOf } from "#shared/readiness/names.ts";
import { readyMinutes } from "#shared/readiness/ready-minutes.ts";
import { EVERYBODY, seatsFor } from "#shared/selectors/seating.ts";
import {
  changedSongs,
  type SongChange,
  type SongStand,
  type Supposed,
  suppose,
} from "#shared/selectors/what-if.ts";

export interface WhatIf {
  /** Ready minutes as it stands and as it would be. */
  readonly before: number;
  readonly after: number;
  readonly changes: readonly SongChange[];
}

interface Eyes {
  readonly views: (song: string, viewpoint: Viewpoint) => SongView | null;
}

const same = (a: WhatIf | null, b: WhatIf | null): boolean => JSON.stringify(a) === JSON.stringify(b);

/** How a gig would stand if all of this were so; null while nothing is supposed. Computed on this device, never written. */
export const useWhatIf = (gig: Gig, supposed: readonly Supposed[]): WhatIf | null => {
  const store = useBoardStore();
  const now = useRef<Eyes>({ views: createSongViews(store) });
  const then = useMemo<Eyes>(() => ({ views: createSongViews(store) }), [store]);
  const select = useCallback(
    ({ board }: BoardReading): WhatIf | null => {
      if (supposed.length === 0) return null;
      const viewpoint = viewpointAt(board, store.now(), gig.id);
      const wouldBe = suppose(gig, supposed);
      const standing = (eyes: Eyes, of: Gig): readonly SongStand[] => {
        const from = { ...viewpoint, gig: of };
        return of.songs.flatMap(({ song }) => {
          const view = eyes.views(song, from);
          if (view === null) return [];
          const { ready, file, night } = withReady(view);
          const { title } = file.song;
          const seats = seatsFor(board, file, EVERYBODY, of);
          return [{ song, title, score: night.score, ready: ready.ready, reason: ready.first, seats }];
        });
      };
      const [before, after] = [standing(now.current, gig), standing(then, wouldBe)];
      const minutes = (of: Gig, stands: readonly SongStand[]): number => {
        const ready = new Set(stands.filter((stand) => stand.ready).map(({ song }) => song));
        return readyMinutes(of, board.songs, (song) => ready.has(song), board.band.settings).ready;
      };
      return {
        before: minutes(gig, before),
        after: minutes(wouldBe, after),
        changes: changedSongs(before, after, namesOf(board)),
      };
    },
    [store, gig, supposed, then],
  );
  return useBoardSlice(select, same);
};
