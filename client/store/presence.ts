/** Who is where on the board right now, as screens and connection know it. */
import type { Id } from "#shared/board/ids.ts";

export type PresenceScreen = "board" | "part" | "song" | "parts" | "room" | "elsewhere";

/** Where one device stands. */
export interface Place {
  readonly screen: PresenceScreen;
  readonly song: Id | null;
  readonly chair: Id | null;
}

/** A person, or a device nobody has named yet, at a place. */
export interface Present extends Place {
  readonly member: Id | null;
  /** The device's writer id: its tabs count once. */
  readonly device: Id;
}

/** How presence travels; client/sync implements it. */
export interface PresenceChannel {
  /** Shows the others where this device is; null = nowhere. */
  readonly announce: (present: Present | null) => void;
  /** What the others show, as it came. */
  readonly others: () => readonly unknown[];
  readonly subscribe: (listener: () => void) => () => void;
}

export type PresenceKey = `cell:${string}/${string}` | "everybody";

export interface PresenceStore {
  /** Says where this device is until the answer is called. Of several places the last one taken counts. */
  readonly stand: (place: Place) => () => void;
  /** Nobody looks at this page: its device is nowhere. */
  readonly setAway: (away: boolean) => void;
  /** Other people in one cell, each once; the same reference until that changes. */
  readonly at: (song: Id, chair: Id) => readonly Present[];
  /** Every other person who is here, each once, at their most telling place. */
  readonly everybody: () => readonly Present[];
  readonly subscribe: (key: PresenceKey, listener: () => void) => () => void;
  readonly close: () => void;
}

const NOBODY: readonly Present[] = [];

/** The presence of a board on which nobody else can be. */
export const ALONE: PresenceStore = {
  stand: () => () => {},
  setAway: () => {},
  at: () => NOBODY,
  everybody: () => NOBODY,
  subscribe: () => () => {},
  close: () => {},
};
