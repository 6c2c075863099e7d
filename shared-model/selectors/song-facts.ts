import type { Song } from "../board/song.ts";
import { formatLength } from "../music/duration.ts";

/** Key, tempo and length of a song in one line; what is not settled is left out. */
export const songFacts = (song: Pick<Song, "key" | "tempo" | "length">): string =>
  [
    song.key,
    song.tempo === null ? "" : String(song.tempo),
    song.length === null ? "" : formatLength(song.length),
  ]
    .filter((fact) => fact !== "")
    .join(" · ");
