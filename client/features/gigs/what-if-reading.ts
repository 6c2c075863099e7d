/** What would come of what is supposed about a gig. Computed on this device, never written. */
import type { BoardStore } from "#client/store/board-store.ts";
import { createGigEyes, type GigEyes } from "#client/store/gig-eyes.ts";
import { readyOf } from "#client/store/ready-of.ts";
import type { Gig } from "#shared/board/band.ts";
import type { Board } from "#shared/board/board.ts";
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

/** Each called song from the gig's night. */
const standing = (eyes: GigEyes, board: Board, gig: Gig): readonly SongStand[] => {
  const { view: viewOf } = eyes(board, gig);
  return gig.songs.flatMap(({ song }) => {
    const view = viewOf(song);
    if (view === null) return [];
    const { ready, first } = readyOf(view);
    const { file, night } = view;
    const seats = seatsFor(board, file, EVERYBODY, gig);
    return [{ song, title: file.song.title, score: night.score, ready, reason: first, seats }];
  });
};

const minutesOf = (board: Board, gig: Gig, stands: readonly SongStand[]): number => {
  const ready = new Set(stands.filter((stand) => stand.ready).map(({ song }) => song));
  return readyMinutes(gig, board.songs, (song) => ready.has(song), board.band.settings).ready;
};

/** Reads what-ifs of one board, with a memory each for the gig as it stands and as it would be. */
export const createWhatIf = (
  store: BoardStore,
): ((board: Board, gig: Gig, supposed: readonly Supposed[]) => WhatIf) => {
  const [now, then] = [createGigEyes(store), createGigEyes(store)];
  return (board, gig, supposed) => {
    const wouldBe = suppose(gig, supposed);
    const [before, after] = [standing(now, board, gig), standing(then, board, wouldBe)];
    return {
      before: minutesOf(board, gig, before),
      after: minutesOf(board, wouldBe, after),
      changes: changedSongs(before, after, namesOf(board)),
    };
  };
};
