import type { Chair, Gig } from "./band.ts";
import type { Board, SongFile } from "./board.ts";
import type { Id } from "./ids.ts";
import type { Casting } from "./song.ts";

/** Who sits where for one song on one date: chair id → member id, null = nobody. Lists every chair of the board. */
export type LineUp = ReadonlyMap<Id, Id | null>;

/** The casting of one chair in one song, defaults filled in. */
export const castingOf = (file: SongFile, chair: Id): Casting =>
  file.castings.get(chair) ?? {
    song: file.song.id,
    chair,
    plays: true,
    needed: true,
    holder: null,
    share: 1,
    nothingSpecial: null,
  };

/** What of a gig decides who sits where. */
export type GigSeats = Pick<Gig, "lineUp" | "away">;

/** Who is meant to sit on a chair, songs and absences aside: as the gig says, else its holder; null = nobody. */
export const seatMeant = (chair: Chair, gig: Pick<Gig, "lineUp"> | null): Id | null =>
  gig?.lineUp.has(chair.id) ? (gig.lineUp.get(chair.id) ?? null) : chair.holder;

/** Whoever is meant to sit there, as long as they are on the board and can come that day. */
export const seatKept = (
  seat: Id | null,
  { people }: Pick<Board, "people">,
  gig: Pick<Gig, "away"> | null,
): Id | null => (seat !== null && people.has(seat) && !gig?.away.includes(seat) ? seat : null);

/**
 * Resolves who plays one song: the gig's own line-up first, then the song's casting, then the chair's holder.
 * A seat given to somebody who is not on the board any more, or is away that day, is empty.
 */
export const lineUpFor = (
  board: Pick<Board, "chairs" | "people">,
  file: SongFile,
  gig: GigSeats | null,
): LineUp => new Map(board.chairs.map((chair) => [chair.id, seatOf(board, file, gig, chair)] as const));

const seatOf = (
  board: Pick<Board, "people">,
  file: SongFile,
  gig: GigSeats | null,
  chair: Chair,
): Id | null => {
  const own = castingOf(file, chair.id).holder;
  // An absence of the usual player empties the seat even where the song names them explicitly.
  const tonight = gig?.lineUp.has(chair.id) ? (gig.lineUp.get(chair.id) ?? null) : undefined;
  const usual = own ?? chair.holder;
  const named = own !== null && own !== chair.holder && tonight !== null;
  if (tonight === undefined || named) {
    const kept = seatKept(usual, board, gig);
    // Where the song's own player cannot come, whoever was seated for the night plays it too.
    if (kept !== null || tonight === undefined || tonight === null) return kept;
  }
  return seatKept(tonight, board, gig);
};
