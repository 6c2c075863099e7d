import { useMemo } from "react";
import { useSongView } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import { type PartView, partView } from "#shared/selectors/part-view.ts";

export interface OpenPart {
  readonly view: SongView;
  readonly part: PartView;
}

/** One part as it stands today; null when its song or its chair left the board. */
export const usePart = (song: string, chair: string): OpenPart | null => {
  const view = useSongView(song);
  return useMemo(() => {
    const found = view?.chairs.find(({ id }) => id === chair);
    if (view === null || found === undefined) return null;
    const { file, chairs, lineUp, today } = view;
    return { view, part: partView({ file, chairs, lineUp, score: today }, found) };
  }, [view, chair]);
};

/** What a sheet or a page about a part is headed by. */
export const usePartTitle = (
  song: string,
  chair: string,
): { readonly title: string; readonly above: string } => {
  const open = usePart(song, chair);
  if (open === null) return { title: "Part", above: "" };
  const { view, part } = open;
  const player = part.member === null ? "nobody on it" : view.names.member(part.member);
  return { title: view.file.song.title, above: `${part.chair.name} · ${player}` };
};
