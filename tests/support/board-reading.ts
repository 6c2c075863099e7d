/** What a board says to somebody who reads it, for comparing a board that was put back with the board there was. */
import type { Board, SongFile } from "#shared/board/board.ts";
import { isPartCardId } from "#shared/board/ids.ts";
import { lineUpFor } from "#shared/board/line-up.ts";
import type { Casting } from "#shared/board/song.ts";
import { type SongScore, scoreSong } from "#shared/readiness/song-score.ts";

const isDefault = (casting: Casting): boolean =>
  casting.plays && casting.needed && casting.share === 1 && !casting.holder && !casting.nothingSpecial;

/** Marks that count: on details, parts and by members on the board; *not started* is as good as no mark. */
const marksOf = (board: Board, file: SongFile): unknown => {
  const cards = new Set(file.cards.map(({ id }) => id));
  const chairs = new Set(board.chairs.map(({ id }) => id));
  const counts = (card: string): boolean =>
    isPartCardId(card) ? chairs.has(card.slice(card.lastIndexOf(":") + 1)) : cards.has(card);
  return [...file.statuses].flatMap(([card, marks]) =>
    [...marks].flatMap(([member, { level, anchor }]) =>
      counts(card) && board.people.has(member) && level > 0 ? [`${card} ${member} ${level} ${anchor}`] : [],
    ),
  );
};

/**
 * Everything but: which device a mark or wording stands under and when it wrote it, castings that say nothing or
 * belong to no column, and the list of what was taken off.
 */
export const readingOf = (board: Board): unknown => ({
  band: board.band,
  chairs: board.chairs,
  people: [...board.people.values()],
  gigs: board.gigs.map((gig) => ({ ...gig, lineUp: [...gig.lineUp] })),
  songs: [...board.songs.values()].map((file) => ({
    ...file,
    cards: file.cards.map(({ versions: _, ...card }) => card),
    castings: [...file.castings.values()].filter(
      (casting) => !isDefault(casting) && board.chairs.some(({ id }) => id === casting.chair),
    ),
    statuses: marksOf(board, file),
  })),
  issues: board.issues,
});

/** The readiness of every song, in every gig's line-up and the usual one, asked on one day about a day a month on. */
export const scoresOf = (board: Board, asOf: number): ReadonlyMap<string, SongScore> => {
  const scores = new Map<string, SongScore>();
  for (const file of board.songs.values())
    for (const gig of [null, ...board.gigs]) {
      const lineUp = lineUpFor(board, file, gig);
      const input = {
        file,
        chairs: board.chairs,
        lineUp,
        settings: board.band.settings,
        asOf,
        t: asOf + 30 * 86_400_000,
      };
      scores.set(`${file.song.id} ${gig?.id ?? ""}`, scoreSong(input));
    }
  return scores;
};
