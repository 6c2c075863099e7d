/** The repertoire as a list: by stage, by title within a stage, narrowed by words. */
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { type Song, STAGES, type Stage } from "../board/song.ts";
import { compareCodeUnits } from "../document/order-key.ts";
import { foldText } from "../lib/fold-text.ts";

/** Which stages are listed; `current` = all but resting. */
export type StageFilter = "current" | "all" | Stage;

export interface RepertoireQuery {
  /** Words that must all appear in title, style, version or key. */
  readonly search: string;
  readonly stage: StageFilter;
}

export interface StageGroup {
  readonly stage: Stage;
  readonly songs: readonly Song[];
}

/** Songs in the order a band looks for them: what is being learnt first, what rests last. */
const STAGE_ORDER: readonly Stage[] = ["learning", "in the book", "candidate", "resting"];

export const byTitle = (a: Pick<Song, "id" | "title">, b: Pick<Song, "id" | "title">): number =>
  compareCodeUnits(foldText(a.title), foldText(b.title)) || compareCodeUnits(a.id, b.id);

const admits = (filter: StageFilter, stage: Stage): boolean =>
  filter === "all" || (filter === "current" ? stage !== "resting" : stage === filter);

/** True when every word of the search appears somewhere in the song's line. */
export const matches = (song: Song, search: string): boolean => {
  const text = foldText(`${song.title} ${song.style} ${song.version} ${song.key}`);
  return foldText(search)
    .split(" ")
    .every((word) => text.includes(word));
};

/**
 * Groups the songs. `placed` holds songs in a group they were last seen in, so that a list keeps still while
 * somebody changes a stage.
 */
export const repertoire = (
  songs: Iterable<Pick<SongFile, "song">>,
  { search, stage }: RepertoireQuery,
  placed: ReadonlyMap<Id, Stage> = new Map(),
): readonly StageGroup[] => {
  const groups = new Map<Stage, Song[]>(STAGE_ORDER.map((name) => [name, []]));
  for (const { song } of songs) {
    const shown = placed.get(song.id) ?? song.stage;
    if (admits(stage, shown) && matches(song, search)) groups.get(shown)?.push(song);
  }
  return [...groups]
    .filter(([, list]) => list.length > 0)
    .map(([name, list]) => ({ stage: name, songs: list.sort(byTitle) }));
};

/** How many songs stand in each stage. */
export const stageCounts = (songs: Iterable<Pick<SongFile, "song">>): ReadonlyMap<Stage, number> => {
  const counts = new Map<Stage, number>(STAGES.map((stage) => [stage, 0]));
  for (const { song } of songs) counts.set(song.stage, (counts.get(song.stage) ?? 0) + 1);
  return counts;
};
