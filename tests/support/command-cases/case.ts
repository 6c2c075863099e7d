/** The shape of a case, and the words the cases share. They speak of the band of `smallBand`. */
import type { Board } from "#shared/board/board.ts";
import type { Author, RefusalCode } from "#shared/commands/command.ts";
import { NOON } from "#tests/support/command-bench.ts";

export interface Refused {
  readonly code: RefusalCode;
  readonly args: unknown;
  readonly as?: Partial<Author>;
}

export interface CommandCase {
  readonly args: unknown;
  readonly as?: Partial<Author>;
  /** What the board says afterwards; read by `expect`. */
  readonly says: (board: Board, run: string) => unknown;
  readonly expected: unknown;
  readonly refused?: readonly Refused[];
}

export const RUN = "the-run";
export const SLOT = "r:2026-03-04/diesel/1";
export const LONG = "x".repeat(201);

export const diesel = (board: Board) => board.songs.get("diesel");
export const detail = (id: string) => (board: Board) => diesel(board)?.cards.find((card) => card.id === id);
export const chair = (id: string) => (board: Board) => board.chairs.find((c) => c.id === id);
export const gig = (board: Board) => board.gigs.find(({ id }) => id === "harbour");
export const sections = (board: Board) => diesel(board)?.sections.map(({ name, bars }) => [name, bars]);
export const order = (board: Board) => board.chairs.map(({ id }) => id);
export const has = (id: string) => (board: Board) =>
  [board.songs, board.people].some((map) => map.has(id)) ||
  [...board.chairs, ...board.gigs, ...(diesel(board)?.cards ?? [])].some((record) => record.id === id);

export const gone = (args: unknown): Refused => ({ code: "gone", args });
export const invalid = (args: unknown): Refused => ({ code: "invalid", args });
export const conflict = (args: unknown): Refused => ({ code: "conflict", args });
export const MEMBER: Partial<Author> = { role: "member", member: "minjae", writer: "other phone" };

export const take = {
  song: "diesel",
  occasion: "r:2026-03-05",
  kind: "run",
  at: NOON + 60_000,
  seats: [],
  feel: "clean",
};
