import { useCallback, useMemo } from "react";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { createGigEyes } from "#client/store/gig-eyes.ts";
import { useBoardStore } from "#client/store/hooks.ts";
import { withReady } from "#client/store/ready-of.ts";
import type { Gig } from "#shared/board/band.ts";
import type { SongFile } from "#shared/board/board.ts";
import type { SwapSong } from "#shared/selectors/swap-list.ts";

export interface SwapSongs {
  readonly played: readonly SwapSong[];
  readonly spares: readonly SwapSong[];
  /** End of the gig's day, ms. */
  readonly night: number;
  /** Days within which the band must have played a song. */
  readonly togetherDays: number;
}

/** The last whole take of the band, ms; null = none. */
const playedAt = ({ takes }: SongFile): number | null =>
  takes.findLast(({ kind, scope }) => (kind === "run" || kind === "gig") && scope.of === "whole")?.at ?? null;

const same = (a: SwapSongs, b: SwapSongs): boolean => JSON.stringify(a) === JSON.stringify(b);

/** The songs of a gig and those that could be played instead, seen from its night. */
export const useSwapSongs = (gig: Gig): SwapSongs => {
  const store = useBoardStore();
  const eyes = useMemo(() => createGigEyes(store), [store]);
  const select = useCallback(
    ({ board }: BoardReading): SwapSongs => {
      const { viewpoint, view: viewOf } = eyes(board, gig.id);
      const entries = new Map(gig.songs.map((entry) => [entry.song, entry]));
      const read = (song: string): readonly SwapSong[] => {
        const view = viewOf(song);
        if (view === null) return [];
        const { file, ready, night } = withReady(view);
        const entry = entries.get(song);
        return [
          {
            song: file.song,
            tempo: entry?.tempo ?? file.song.tempo,
            tuning: entry?.tuning ?? (file.song.tuning || board.band.tuning),
            ready: ready.ready,
            score: night.score,
            playedAt: playedAt(file),
          },
        ];
      };
      const left = [...board.songs.values()].filter(
        ({ song }) => !entries.has(song.id) && song.stage !== "resting" && !gig.banned.includes(song.id),
      );
      return {
        played: gig.songs.flatMap(({ song }) => read(song)),
        spares: left.flatMap(({ song }) => read(song.id)),
        night: viewpoint.night,
        togetherDays: board.band.settings.togetherDays,
      };
    },
    [eyes, gig],
  );
  return useBoardSlice(select, same);
};
