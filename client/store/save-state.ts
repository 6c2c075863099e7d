/**
 * What became of one's own changes. Three states per change: on this phone, saved (on the server's disk),
 * refused (and why). Written by client/sync, read by the screens.
 */
import type { Author } from "#shared/commands/command.ts";
import type { Written } from "#shared/document/board-document.ts";

export type Connection =
  /** The server answers and both sides have each other's changes. */
  | "connected"
  | "connecting"
  /** No signal, or the server is away; we keep trying. */
  | "offline"
  /** The server turned this device away; trying again is useless until somebody acts. */
  | "refused"
  /** A board that lives on this device only (tests, previews). */
  | "local";

export interface RefusedChange {
  readonly id: string;
  /** Name of the command. */
  readonly command: string;
  /** Why, and what to do, in one sentence. */
  readonly sentence: string;
}

export interface SaveState {
  readonly connection: Connection;
  /** Why the server turned this device away, or what this device cannot do, in a sentence; empty otherwise. */
  readonly reason: string;
  /** Changes that so far exist on this device only. */
  readonly unsent: number;
  readonly refused: readonly RefusedChange[];
  /** Moment (ms) the board was last known to equal the server's; null = never. */
  readonly asOf: number | null;
  /** What happened to this device's copy of the board, in sentences to be read once. */
  readonly notes: readonly string[];
}

/** One command of this device, kept until the server has it on disk. */
export interface OutboxEntry {
  readonly id: string;
  readonly name: string;
  readonly args: unknown;
  /** Device clock, ms. */
  readonly at: number;
  /** Who ran it, so that it can be run again in their name. */
  readonly author: Author;
  readonly written: readonly Written[];
}

/** Where the store hands over its commands; client/sync implements it. */
export interface Outbox {
  readonly keep: (entry: OutboxEntry) => void;
  /** State of one change; undefined = not known here any more, which means saved long ago. */
  readonly stateOf: (id: string) => "on this phone" | "saved" | "refused" | undefined;
  /** Forgets a refused change once its owner has read why. */
  readonly dismiss: (id: string) => void;
  /** Takes a note away that was read. */
  readonly forgetNote: (note: string) => void;
  readonly saveState: () => SaveState;
  readonly subscribe: (listener: () => void) => () => void;
}

/** An outbox for boards without a server: everything stays on this device. */
export const createLocalOutbox = (): Outbox => {
  const state: SaveState = { connection: "local", reason: "", unsent: 0, refused: [], asOf: null, notes: [] };
  return {
    keep: () => {},
    stateOf: () => "on this phone",
    dismiss: () => {},
    forgetNote: () => {},
    saveState: () => state,
    subscribe: () => () => {},
  };
};
