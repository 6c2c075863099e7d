import { useState } from "react";
import type { SongFile } from "#shared/board/board.ts";
import type { Stage } from "#shared/board/song.ts";
import { type RepertoireQuery, repertoire, type StageGroup } from "#shared/selectors/repertoire.ts";

export interface SteadySongs {
  readonly groups: readonly StageGroup[];
  /** Songs that now belong elsewhere or are new; shown where they belong after `settle`. */
  readonly moved: number;
  readonly settle: () => void;
}

const stagesOf = (songs: ReadonlyMap<string, SongFile>): ReadonlyMap<string, Stage> =>
  new Map([...songs].map(([id, { song }]) => [id, song.stage]));

/**
 * Keeps every song where it was when the list was opened, searched or settled, so that nothing moves under a pointer
 * while somebody here or elsewhere changes a stage or adds a song.
 * @param own how many songs this device added so far: these show at once
 */
export const useSteadySongs = (
  songs: ReadonlyMap<string, SongFile>,
  query: RepertoireQuery,
  own: number,
): SteadySongs => {
  const key = `${query.search} ${query.stage} ${own}`;
  const [held, setHeld] = useState(() => ({ key, placed: stagesOf(songs) }));
  let { placed } = held;
  if (held.key !== key) {
    placed = stagesOf(songs);
    setHeld({ key, placed });
  }
  const known = [...songs.values()].filter(({ song }) => placed.has(song.id));
  const moved = [...songs.values()].filter(({ song }) => placed.get(song.id) !== song.stage).length;
  return {
    groups: repertoire(known, query, placed),
    moved,
    settle: () => setHeld({ key, placed: stagesOf(songs) }),
  };
};
