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
 * Resolves who plays one song: whoever the song names for the chair, else whoever the gig seats there, else its holder; a
 * chair that the gig leaves empty is empty.
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
  if (!gig?.lineUp.has(chair.id)) return seatKept(own ?? chair.holder, board, gig);
  const tonight = gig.lineUp.get(chair.id) ?? null;
  // Left empty for the night, a chair is empty in songs that name somebody for it as well.
  if (tonight === null) return null;
  // A song's own player comes first; where they cannot come, whoever is seated that night plays it too.
  const named = own === chair.holder ? null : seatKept(own, board, gig);
  return named ?? seatKept(tonight, board, gig);
};
