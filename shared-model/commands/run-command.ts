import * as v from "valibot";
import type { Board } from "../board/board.ts";
import type { BoardDocument, Written } from "../document/board-document.ts";
import { err, ok, type Result } from "../lib/result.ts";
import { type Command, type CommandContext, type Refusal, refuse } from "./command.ts";

/** Transaction origin of everything a command writes. */
export interface CommandOrigin {
  readonly command: string;
  readonly id: string;
}

/** A command that went through: its keys, with what stood there before. Empty = nothing had to change. */
export interface Done {
  readonly written: readonly Written[];
}

/** Names what is wrong in words: `songs.2.title` → `Title of entry 3`. */
const labelOf = (issue: v.BaseIssue<unknown>): string => {
  const path = (v.getDotPath(issue) ?? "").split(".");
  const field = path.findLast((part) => /^[a-z]/i.test(part)) ?? "entry";
  const words = field.replace(/[A-Z]/g, (letter) => ` ${letter.toLowerCase()}`);
  const index = path.find((part) => /^\d+$/.test(part));
  const label = words.charAt(0).toUpperCase() + words.slice(1);
  return index === undefined ? label : `${label} of entry ${Number(index) + 1}`;
};

const describe = (issue: v.BaseIssue<unknown> | undefined): string => {
  if (issue === undefined) return "This cannot be read. Try again.";
  // The library's own words are for programmers; ours begin with what to do.
  const told = issue.message.startsWith("Invalid ") ? "this page does not know such a value" : issue.message;
  return `${labelOf(issue)} is not right: ${told}. Correct it and try again.`;
};

const NOT_FOR_DEPS = refuse(
  "forbidden",
  "A dep's link lets you say “Got it” and ask. For anything else, ask the band.",
);

/**
 * Validates, checks on the snapshot, then writes in one transaction.
 * @param board the snapshot of `document` the author was looking at
 */
export const runCommand = <A, I>(
  document: BoardDocument,
  board: Board,
  command: Command<A, I>,
  args: unknown,
  context: CommandContext,
): Result<Done, Refusal> => {
  const { role } = context.author;
  if (role === "guest")
    return err(
      refuse("forbidden", "You are looking on. Ask the leader for a joining link to change the board."),
    );
  if (command.leaderOnly && role !== "leader")
    return err(refuse("forbidden", "Only the band's leader can do this."));
  if (role === "dep" && command.dep === undefined) return err(NOT_FOR_DEPS);
  const parsed = v.safeParse(command.schema, args);
  if (!parsed.success) return err(refuse("invalid", describe(parsed.issues[0])));
  const withheld = role === "dep" ? (command.dep?.(parsed.output, context.author) ?? null) : null;
  if (withheld !== null) return err(withheld);
  const running = { ...context, stored: document.get };
  const refusal = command.check?.(board, parsed.output, running) ?? null;
  if (refusal !== null) return err(refusal);
  const origin: CommandOrigin = { command: command.name, id: context.id };
  const written = document.transact(origin, (set) => command.write(set, parsed.output, running, board));
  return ok({ written });
};
