import type { Board, SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { foldText } from "../lib/fold-text.ts";
import { type Refusal, refuse } from "./command.ts";

/** Returns the first refusal, or null when every check passed. */
export const firstOf = (...checks: readonly (Refusal | null | undefined)[]): Refusal | null =>
  checks.find((refusal) => refusal !== null && refusal !== undefined) ?? null;

const gone = (what: string): Refusal =>
  refuse("gone", `This ${what} is not on the board any more. Go back to the board to see what changed.`);

export const songExists = (board: Board, song: Id): Refusal | null =>
  board.songs.has(song) ? null : gone("song");

export const chairExists = (board: Board, chair: Id): Refusal | null =>
  board.chairs.some((c) => c.id === chair) ? null : gone("chair");

export const personExists = (board: Board, person: Id): Refusal | null =>
  board.people.has(person) ? null : gone("person");

/** Passes an empty seat: nobody is somebody we can name too. */
export const seatExists = (board: Board, seat: Id | ""): Refusal | null =>
  seat === "" ? null : personExists(board, seat);

export const gigExists = (board: Board, gig: Id): Refusal | null =>
  board.gigs.some((g) => g.id === gig) ? null : gone("gig");

export const sectionExists = (file: SongFile | undefined, section: Id): Refusal | null =>
  file?.sections.some((s) => s.id === section) ? null : gone("section");

export const removedExists = (board: Board, key: string): Refusal | null =>
  board.removed.has(key)
    ? null
    : refuse("gone", "There is nothing to bring back: it is on the board already.");

/** The song file that holds a card, and the card. */
export const findCard = (
  board: Board,
  card: Id,
): { file: SongFile; card: SongFile["cards"][number] } | null => {
  for (const file of board.songs.values()) {
    const found = file.cards.find((c) => c.id === card);
    if (found) return { file, card: found };
  }
  return null;
};

export const cardExists = (board: Board, card: Id): Refusal | null =>
  findCard(board, card) ? null : gone("detail");

/** Refuses a name that another record already bears. */
export const nameIsFree = (
  what: string,
  name: string,
  others: Iterable<{ readonly id: Id; readonly name: string }>,
  self?: Id,
): Refusal | null => {
  for (const other of others) {
    if (other.id !== self && foldText(other.name) === foldText(name)) {
      return refuse(
        "conflict",
        `There is already a ${what} called “${other.name}”. Choose another name, or open that one.`,
      );
    }
  }
  return null;
};
