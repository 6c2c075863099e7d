/** What a gig came to: each song of it with its take, what was swapped, and the list of what was performed. */
import type { FloorDid, Gig } from "../board/band.ts";
import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Take } from "../board/take.ts";
import { listed } from "../readiness/names.ts";

export interface DebriefRow {
  readonly song: Id;
  readonly title: string;
  /** It stood in the running order. */
  readonly called: boolean;
  /** Somebody said that it was left out. */
  readonly leftOut: boolean;
  readonly floorDid: FloorDid;
  /** The gig's last take of it; null = not logged. */
  readonly take: Take | null;
}

/** Sorts behind every moment; a number, as two infinities have no difference. */
const LATEST = Number.MAX_VALUE;

/**
 * The called songs in playing order, then those that were played all the same in the order they were logged, then those
 * of `also` that somebody is about to log. Songs that are off the board are left out.
 */
export const debriefRows = (
  { songs }: Pick<Board, "songs">,
  gig: Gig,
  also: readonly Id[] = [],
): readonly DebriefRow[] => {
  const occasion = `g:${gig.id}`;
  const called = new Set(gig.songs.map(({ song }) => song));
  const rowOf = (song: Id, isCalled: boolean): readonly DebriefRow[] => {
    const file = songs.get(song);
    if (file === undefined) return [];
    const take = file.takes.findLast((one) => one.occasion === occasion) ?? null;
    const { leftOut = false, floorDid = "" } = gig.told.get(song) ?? {};
    // What was played was not left out, whatever was said before.
    return [
      {
        song,
        title: file.song.title,
        called: isCalled,
        leftOut: leftOut && isCalled && take === null,
        floorDid,
        take,
      },
    ];
  };
  const extra = [...songs.keys()]
    .filter((song) => !called.has(song))
    .flatMap((song) => rowOf(song, false))
    .filter(({ song, take }) => take !== null || also.includes(song))
    .sort(
      (a, b) =>
        (a.take?.at ?? LATEST) - (b.take?.at ?? LATEST) || also.indexOf(a.song) - also.indexOf(b.song),
    );
  return [...gig.songs.flatMap(({ song }) => rowOf(song, true)), ...extra];
};

/** Called songs that nobody has said anything about yet. */
export const openRows = (rows: readonly DebriefRow[]): readonly DebriefRow[] =>
  rows.filter(({ called, leftOut, take }) => called && !leftOut && take === null);

/** What was played though it was not called, and the other way round. */
export const swapSentences = (rows: readonly DebriefRow[]): readonly string[] => {
  const names = (some: readonly DebriefRow[]): string => listed(some.map(({ title }) => title));
  const extra = rows.filter(({ called, take }) => !called && take !== null);
  const left = rows.filter(({ called, leftOut }) => called && leftOut);
  return [
    ...(extra.length === 0 ? [] : [`Played though not called: ${names(extra)}.`]),
    ...(left.length === 0 ? [] : [`Called and left out: ${names(left)}.`]),
  ];
};
