import type { Gig } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Settings } from "../board/settings.ts";

export interface ReadyMinutes {
  /** Played minutes of the gig-ready songs in the running order, with the gaps between them. */
  readonly ready: number;
  /** The same for every song in the running order. */
  readonly planned: number;
  /** What the band was booked to play. */
  readonly contracted: number;
  /** Songs in the running order whose length nobody has filled in; they count as 0 minutes. */
  readonly unknownLength: readonly Id[];
}

/** How much of a gig stands. `isReady` is gigReady's answer; waived gates count as passed. */
export const readyMinutes = (
  gig: Pick<Gig, "songs" | "minutes">,
  songs: ReadonlyMap<Id, SongFile>,
  isReady: (song: Id) => boolean,
  settings: Pick<Settings, "gapSeconds">,
): ReadyMinutes => {
  const order = gig.songs.flatMap(({ song }) => songs.get(song) ?? []);
  const minutesOf = (files: readonly SongFile[]): number => {
    const played = files.reduce((sum, { song }) => sum + (song.length ?? 0), 0);
    return (played + settings.gapSeconds * Math.max(0, files.length - 1)) / 60;
  };
  return {
    ready: minutesOf(order.filter(({ song }) => isReady(song.id))),
    planned: minutesOf(order),
    contracted: gig.minutes,
    unknownLength: [...new Set(order.filter(({ song }) => song.length === null).map(({ song }) => song.id))],
  };
};
