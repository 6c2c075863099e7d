import type { Gig } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { matches, repertoire } from "./repertoire.ts";

/** The songs of a gig, and the rest of what the band plays. */
export interface GigFirst {
  /** In running order. */
  readonly called: readonly SongFile[];
  /** What is being learnt, then what is in the book, then candidates; by title. Resting songs are left out. */
  readonly others: readonly SongFile[];
}

/**
 * Songs as a phone lists them: the gig's first, whatever their stage. `search` narrows both lists by words;
 * a search finds resting songs too, because somebody may call one.
 */
export const gigFirst = (
  songs: ReadonlyMap<Id, SongFile>,
  gig: Pick<Gig, "songs"> | null,
  search = "",
): GigFirst => {
  const called = (gig?.songs ?? []).flatMap(({ song }) => songs.get(song) ?? []);
  const known = new Set(called);
  const stage = search.trim() === "" ? "current" : "all";
  const rest = repertoire(
    [...songs.values()].filter((file) => !known.has(file)),
    { search, stage },
  );
  return {
    called: called.filter(({ song }) => matches(song, search)),
    others: rest.flatMap((group) => group.songs.flatMap(({ id }) => songs.get(id) ?? [])),
  };
};
