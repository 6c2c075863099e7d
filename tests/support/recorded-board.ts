/** A board whose updates are kept as the rows a server would store, written by several devices in turn. */
import * as Y from "yjs";
import type { Board } from "#shared/board/board.ts";
import { type Author, type CommandContext, idsFrom, type Refusal } from "#shared/commands/command.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import type { Done } from "#shared/commands/run-command.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { type BoardDocument, createBoardDocument } from "#shared/document/board-document.ts";
import type { HistoryRow } from "#shared/history/history.ts";
import type { Result } from "#shared/lib/result.ts";
import { type Dice, roll } from "./random-commands.ts";

export const EVENING = Date.UTC(2026, 2, 4, 19);

export interface RecordedBoard {
  readonly ydoc: Y.Doc;
  readonly document: BoardDocument;
  readonly board: () => Board;
  readonly rows: readonly HistoryRow[];
  /** Runs a command by name on one device; a minute passes with each. */
  readonly run: (name: string, args: unknown, as?: Partial<Author>) => Result<Done, Refusal>;
  /** Device clock of the next run, ms. */
  readonly now: () => number;
}

export const recordBoard = (): RecordedBoard => {
  const ydoc = new Y.Doc();
  const document = createBoardDocument(ydoc);
  const runner = createRunner(document);
  const rows: HistoryRow[] = [];
  let runs = 0;
  let device = "phone";
  let member: string | null = null;
  const now = (): number => EVENING + runs * 60_000;
  ydoc.on("update", (bytes: Uint8Array) => {
    rows.push({ seq: rows.length + 1, at: now(), device, member, bytes });
  });
  return {
    ydoc,
    document,
    board: runner.board,
    rows,
    now,
    run: (name, args, as = {}) => {
      const command = COMMANDS.get(name);
      if (command === undefined) throw new Error(`No command ${name}`);
      runs += 1;
      const author: Author = { member: null, writer: "phone", role: "leader", ...as };
      device = author.writer;
      member = author.member;
      const id = `run-${runs}`;
      const context: CommandContext = { id, now: now(), author, newId: idsFrom(id) };
      return runner.run(command, args, context);
    },
  };
};

export interface Move extends Dice {
  readonly command: string;
  readonly device: number;
}

const DEVICES = ["phone", "tablet", "laptop"] as const;

/** Plays random commands, each on one of three devices of one member; refused ones change nothing. */
export const playMoves = (recorded: RecordedBoard, moves: readonly Move[]): void => {
  for (const move of moves) {
    const rolled = roll(recorded.board(), move.command, move);
    if (rolled === null) continue;
    const writer = DEVICES[move.device % DEVICES.length] ?? "phone";
    recorded.run(rolled.name, rolled.args, { writer });
  }
};
