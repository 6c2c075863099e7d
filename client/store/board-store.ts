/**
 * The board as the screens see it: follows the document once, tells listeners by record which of them changed,
 * and is the one door for commands. Governing rule: a listener hears of its own record only.
 */
import type { Board } from "#shared/board/board.ts";
import type { Command, CommandContext, Refusal } from "#shared/commands/command.ts";
import { idsFrom } from "#shared/commands/command.ts";
import type { Done } from "#shared/commands/run-command.ts";
import { createRunner } from "#shared/commands/runner.ts";
import { takeBack } from "#shared/commands/take-back.ts";
import type { BoardDocument, Written } from "#shared/document/board-document.ts";
import { err, type Result } from "#shared/lib/result.ts";
import { createReadiness, type Readiness } from "#shared/readiness/readiness-cache.ts";
import type { Identity } from "./identity.ts";
import { createListeners } from "./listeners.ts";
import type { Outbox } from "./save-state.ts";

/** What a listener can wait for: one song, or one of the board's lists. */
export type BoardKey =
  | `song:${string}`
  | "songs"
  | "chairs"
  | "people"
  | "gigs"
  | "rehearsals"
  | "aways"
  | "band"
  | "board";

/** One of one's own changes that can be taken back. */
export interface OwnChange {
  readonly id: string;
  /** What was done, in words: "Locked in: Choke on 4-and". */
  readonly label: string;
  readonly at: number;
  readonly written: readonly Written[];
}

export interface BoardStore {
  readonly board: () => Board;
  /** The document as it is stored, for exports and for names of what was removed; never for showing the board. */
  readonly stored: Pick<BoardDocument, "get" | "entries">;
  /** Calls back when that record's reference changed. */
  readonly subscribe: (key: BoardKey, listener: () => void) => () => void;
  readonly readiness: Readiness;
  readonly identity: Identity;
  /** Device clock, ms. */
  readonly now: () => number;
  /** Runs a command; `label` names it in the list of own changes. */
  readonly run: <A, I>(command: Command<A, I>, args: NoInfer<I>, label: string) => Result<OwnChange, Refusal>;
  /** Takes one of one's own changes back by a compensating command. */
  readonly undo: (change: OwnChange) => Result<OwnChange, Refusal>;
  /** One's own changes of this visit, latest first, at most fifty. */
  readonly changes: () => readonly OwnChange[];
  readonly subscribeChanges: (listener: () => void) => () => void;
  /** Calls back with the board before and after each change made here, undos included. */
  readonly subscribeOwn: (listener: (before: Board, after: Board) => void) => () => void;
  readonly outbox: Outbox;
  readonly close: () => void;
}

export interface BoardStoreOptions {
  readonly document: BoardDocument;
  readonly outbox: Outbox;
  readonly identity: Identity;
  readonly now: () => number;
  /** A fresh id for a command. */
  readonly newId: () => string;
}

const REMEMBERED_CHANGES = 50;

/** Keys whose record changed between two boards. */
const changedKeys = (before: Board, after: Board): readonly BoardKey[] => {
  const keys: BoardKey[] = [];
  if (before.songs !== after.songs) {
    for (const [id, file] of after.songs) if (before.songs.get(id) !== file) keys.push(`song:${id}`);
    for (const id of before.songs.keys()) if (!after.songs.has(id)) keys.push(`song:${id}`);
    keys.push("songs");
  }
  for (const key of ["chairs", "people", "gigs", "rehearsals", "aways", "band"] as const)
    if (before[key] !== after[key]) keys.push(key);
  keys.push("board");
  return keys;
};

/** Opens the store over a document. */
export const createBoardStore = ({
  document,
  outbox,
  identity,
  now,
  newId,
}: BoardStoreOptions): BoardStore => {
  const listeners = createListeners<BoardKey>();
  const changeListeners = createListeners<"changes">();
  const ownListeners = new Set<(before: Board, after: Board) => void>();
  const readiness = createReadiness();
  let seen: Board | null = null;
  let changes: readonly OwnChange[] = [];

  const runner = createRunner(document, (board) => {
    const before = seen ?? board;
    seen = board;
    if (before === board) return;
    if (before.songs.size !== board.songs.size) readiness.keepOnly(board.songs);
    listeners.notify(changedKeys(before, board));
  });
  seen = runner.board();

  const remember = (change: OwnChange): OwnChange => {
    changes = [change, ...changes].slice(0, REMEMBERED_CHANGES);
    changeListeners.notify(["changes"]);
    return change;
  };

  const execute = <A, I>(
    command: Command<A, I>,
    args: NoInfer<I>,
    label: string,
  ): Result<OwnChange, Refusal> => {
    const id = newId();
    const before = runner.board();
    const context: CommandContext = { id, now: now(), author: identity.author(), newId: idsFrom(id) };
    const result: Result<Done, Refusal> = runner.run(command, args, context);
    if (!result.ok) return err(result.error);
    const { written } = result.value;
    if (written.length > 0)
      outbox.keep({ id, name: command.name, args, at: context.now, author: context.author, written });
    for (const listener of ownListeners) listener(before, runner.board());
    return { ok: true, value: { id, label, at: context.now, written } };
  };

  return {
    board: runner.board,
    stored: document,
    subscribe: listeners.subscribe,
    readiness,
    identity,
    now,
    run: (command, args, label) => {
      const result = execute(command, args, label);
      if (result.ok && result.value.written.length > 0) remember(result.value);
      return result;
    },
    undo: (change) => {
      const result = execute(takeBack, { written: [...change.written] }, `Undone: ${change.label}`);
      if (!result.ok) return result;
      changes = changes.filter((other) => other.id !== change.id);
      return { ok: true, value: remember(result.value) };
    },
    changes: () => changes,
    subscribeChanges: (listener) => changeListeners.subscribe("changes", listener),
    subscribeOwn: (listener) => {
      ownListeners.add(listener);
      return () => ownListeners.delete(listener);
    },
    outbox,
    close: runner.close,
  };
};
