/** Devices with a copy of the board each, that meet only when they are told to. */
import * as Y from "yjs";
import type { Board } from "#shared/board/board.ts";
import { type Author, type CommandContext, idsFrom, type Refusal } from "#shared/commands/command.ts";
import { COMMANDS } from "#shared/commands/registry.ts";
import type { Done } from "#shared/commands/run-command.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { type BoardDocument, createBoardDocument, type Written } from "#shared/document/board-document.ts";
import type { Result } from "#shared/lib/result.ts";
import { type Dice, roll } from "./random-commands.ts";
import { EVENING } from "./recorded-board.ts";

/** One key that a device wrote, and when by the clock all devices share. */
export interface Noted extends Written {
  readonly at: number;
}

export interface Replica {
  readonly writer: string;
  readonly ydoc: Y.Doc;
  readonly document: BoardDocument;
  readonly board: () => Board;
  readonly noted: readonly Noted[];
  readonly run: (name: string, args: unknown, as?: Partial<Author>) => Result<Done, Refusal>;
  /** A random command for this device's board; refused ones change nothing. */
  readonly move: (command: string, dice: Dice) => void;
}

/** A clock shared by some replicas: a minute passes with every command. */
export interface Clock {
  now: number;
}

export const startClock = (): Clock => ({ now: EVENING });

export const openReplica = (writer: string, clock: Clock): Replica => {
  const ydoc = new Y.Doc();
  const document = createBoardDocument(ydoc);
  const runner = createRunner(document);
  const noted: Noted[] = [];
  let runs = 0;
  const run: Replica["run"] = (name, args, as = {}) => {
    const command = COMMANDS.get(name);
    if (command === undefined) throw new Error(`No command ${name}`);
    clock.now += 60_000;
    runs += 1;
    const id = `${writer}-${runs}`;
    const author: Author = { member: null, writer, role: "leader", ...as };
    const context: CommandContext = { id, now: clock.now, author, newId: idsFrom(id) };
    const done = runner.run(command, args, context);
    if (done.ok) noted.push(...done.value.written.map((written) => ({ ...written, at: clock.now })));
    return done;
  };
  return {
    writer,
    ydoc,
    document,
    board: runner.board,
    noted,
    run,
    move: (command, dice) => {
      const rolled = roll(runner.board(), command, dice);
      if (rolled !== null) run(rolled.name, rolled.args);
    },
  };
};

/** Lets some replicas exchange all they have. */
export const meet = (...replicas: readonly Replica[]): void => {
  for (const from of replicas)
    for (const to of replicas)
      if (from !== to) Y.applyUpdate(to.ydoc, Y.encodeStateAsUpdate(from.ydoc, Y.encodeStateVector(to.ydoc)));
};
