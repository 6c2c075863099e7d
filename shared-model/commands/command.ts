/**
 * A command is the one way to change the board. It validates its arguments, checks them on the snapshot and then
 * writes in one transaction. All checks precede the first write, because a transaction does not roll back.
 */
import type * as v from "valibot";
import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { BoardDocument, SetKey } from "../document/board-document.ts";

/** What the server lets this device do on the board. */
export type Role = "leader" | "member" | "guest" | "dep";

export interface Author {
  /** The person this device belongs to; null until they picked their name. */
  readonly member: Id | null;
  /** The device. */
  readonly writer: Id;
  readonly role: Role;
}

export interface CommandContext {
  /** Id of this run; the same id replayed writes the same records. */
  readonly id: Id;
  /** Device clock, ms. */
  readonly now: number;
  readonly author: Author;
  /** Ids for new records, derived from the run's id and therefore the same on replay. */
  readonly newId: () => Id;
}

/** The context as a running command sees it: with the stored values, for the few that need more than the board. */
export interface RunContext extends CommandContext {
  readonly stored: BoardDocument["get"];
}

export type RefusalCode = "invalid" | "gone" | "forbidden" | "conflict";

/** Why a command did not run, in one sentence that says what to do. */
export interface Refusal {
  readonly code: RefusalCode;
  readonly sentence: string;
}

/** `A`: the arguments as checked; `I`: as callers write them, entries with a default left out. */
export interface Command<A, I = A> {
  /** Stable name, stored in outboxes. */
  readonly name: string;
  readonly schema: v.GenericSchema<I, A>;
  /** Only a leader's device may run it. */
  readonly leaderOnly?: boolean;
  /** What a dep's device may do with it; null = go ahead. Absent = nothing. */
  readonly dep?: (args: A, author: Author) => Refusal | null;
  /** Checks the arguments against the board; null = go ahead. */
  readonly check?: (board: Board, args: A, context: RunContext) => Refusal | null;
  readonly write: (set: SetKey, args: A, context: RunContext, board: Board) => void;
}

/** A command by name, as outboxes keep it. */
export interface Invocation {
  readonly name: string;
  readonly args: unknown;
}

/** Declares a command; ties its argument types to its schema. */
export const defineCommand = <I, A>(command: Command<A, I>): Command<A, I> => command;

export const refuse = (code: RefusalCode, sentence: string): Refusal => ({ code, sentence });

/** Ids for the records of one run: the run's own id first, then `id.2`, `id.3`… */
export const idsFrom = (id: Id): (() => Id) => {
  let n = 0;
  return () => {
    n += 1;
    return n === 1 ? id : `${id}.${n}`;
  };
};
