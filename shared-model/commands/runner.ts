import type { Board } from "../board/board.ts";
import type { BoardDocument } from "../document/board-document.ts";
import { createBoardReader } from "../document/read/board-reader.ts";
import type { Result } from "../lib/result.ts";
import type { Command, CommandContext, Refusal } from "./command.ts";
import { type Done, runCommand } from "./run-command.ts";

/** A document with the board read from it: what stores, seeders and tests work on. */
export interface Runner {
  readonly board: () => Board;
  readonly run: <A, I>(
    command: Command<A, I>,
    args: NoInfer<I>,
    context: CommandContext,
  ) => Result<Done, Refusal>;
  /** Stops following the document. */
  readonly close: () => void;
}

/** Follows a document and runs commands against its latest board. */
export const createRunner = (document: BoardDocument, onBoard?: (board: Board) => void): Runner => {
  const reader = createBoardReader(document);
  const close = document.onTouched((touched) => {
    const board = reader.refresh(touched);
    onBoard?.(board);
  });
  return {
    board: reader.board,
    run: (command, args, context) => runCommand(document, reader.board(), command, args, context),
    close,
  };
};
