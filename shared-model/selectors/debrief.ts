/** What a gig came to: each song of it with its take, what was swapped, and the list of what was performed. */
import type { Gig } from "../board/band.ts";
import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Take } from "../board/take.ts";
import { listed } from "../readiness/names.ts";

export interface DebriefRow {
  readonly song: Id;
  readonly title: string;
  /** It stood in the running order. */
  readonly called: boolean;
  /** The gig's last take of it; null = not logged. */
  readonly take: Take | null;
}

/** The called songs in playing order, then those that were played all the same. Songs that are off the board are left out. */
export const debriefRows = ({ songs }: Pick<Board, "songs">, gig: Gig): readonly DebriefRow[] => {
  const occasion = `g:${gig.id}`;
  const rowOf = (song: Id, called: boolean): readonly DebriefRow[] => {
    const file = songs.get(song);
    if (file === undefined) return [];
    const take = file.takes.findLast((one) => one.occasion === occasion) ?? null;
    return [{ song, title: file.song.title, called, take }];
  };
  const called = new Set(gig.songs.map(({ song }) => song));
  const extra = [...songs.keys()]
    .filter((song) => !called.has(song))
    .flatMap((song) => rowOf(song, false))
    .filter(({ take }) => take !== null)
    .sort((a, b) => (a.take?.at ?? 0) - (b.take?.at ?? 0));
  return [...gig.songs.flatMap(({ song }) => rowOf(song, true)), ...extra];
};

/** What was played though it was not called, and the other way round; nothing before anything was logged. */
export const swapSentences = (rows: readonly DebriefRow[]): readonly string[] => {
  if (rows.every(({ take }) => take === null)) return [];
  const names = (some: readonly DebriefRow[]): string => listed(some.map(({ title }) => title));
  const extra = rows.filter(({ called, take }) => !called && take !== null);
  const left = rows.filter(({ called, take }) => called && take === null);
  return [
    ...(extra.length === 0 ? [] : [`Played though not called: ${names(extra)}.`]),
    ...(left.length === 0 ? [] : [`Called and not logged as played: ${names(left)}.`]),
  ];
};
