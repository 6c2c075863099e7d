import { useMemo } from "react";
import { useBoardStore, useSongView, useViewpoint } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import type { Gig } from "#shared/board/band.ts";
import type { Readiness } from "#shared/readiness/readiness-cache.ts";
import { type MyPart, memberLineUp, myParts } from "#shared/selectors/my-parts.ts";
import type { PartSource } from "#shared/selectors/part-view.ts";

/** A song under the line-up in which the member plays it; null = nothing to play, or the song is gone. */
export const mySource = (
  view: SongView | null,
  member: string,
  gig: Gig | null,
  readiness: Readiness,
): PartSource | null => {
  const lineUp = view === null ? null : memberLineUp(view, view.file, gig, member);
  if (view === null || lineUp === null) return null;
  const { file, chairs, input } = view;
  return { file, chairs, lineUp, score: readiness.scoreSong({ ...input, lineUp, t: input.asOf }) };
};

export interface MyOpenSong {
  readonly source: PartSource;
  readonly parts: readonly MyPart[];
}

/** One song with the member's parts in it. */
export const useMySong = (song: string, member: string): MyOpenSong | null => {
  const view = useSongView(song);
  const { readiness } = useBoardStore();
  const [{ gig }] = useViewpoint();
  return useMemo(() => {
    const source = mySource(view, member, gig, readiness);
    return source === null ? null : { source, parts: myParts(source, member) };
  }, [view, member, gig, readiness]);
};
