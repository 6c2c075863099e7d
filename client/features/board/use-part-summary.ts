import { useCallback } from "react";
import { useSongSlice } from "#client/store/hooks.ts";
import type { SongView } from "#client/store/song-view.ts";
import type { Chair } from "#shared/board/band.ts";
import { type CellSummary, cellSummary, sameCell } from "#shared/selectors/cell-summary.ts";
import { partView } from "#shared/selectors/part-view.ts";

/** One part summed up; keeps its reference while nothing about it changes. Null when the song is gone. */
export const usePartSummary = (song: string, chair: Chair): CellSummary | null => {
  const select = useCallback(
    ({ file, chairs, lineUp, today, input }: SongView) =>
      cellSummary(partView({ file, chairs, lineUp, score: today }, chair), input.settings.cardsShown, chairs),
    [chair],
  );
  return useSongSlice(song, select, sameCell);
};
