/** Songs somebody flagged on stage, to come back to after the gig. One device's own, by gig; nothing of it is on the board. */
import { useCallback, useSyncExternalStore } from "react";
import * as v from "valibot";
import { recall, remember } from "#client/pieces/device-memory.ts";

export interface GigFlag {
  readonly song: string;
  /** Moment (ms) at which it was flagged. */
  readonly at: number;
}

const FLAGS = v.array(v.object({ song: v.string(), at: v.number() }));
const NONE: readonly GigFlag[] = [];

const nameOf = (board: string, gig: string): string => `gig-flags.${board}.${gig}`;

/** What this page has read or written: it goes on where storage is closed or full. */
const held = new Map<string, readonly GigFlag[]>();
const listeners = new Set<() => void>();

const read = (name: string): readonly GigFlag[] => {
  try {
    const found = v.safeParse(FLAGS, JSON.parse(recall(name) ?? "[]"));
    return found.success ? found.output : NONE;
  } catch {
    return NONE;
  }
};

/** The flags of a gig, in the order they were set; the same array until one changes. */
export const gigFlags = (board: string, gig: string): readonly GigFlag[] => {
  const name = nameOf(board, gig);
  const flags = held.get(name) ?? read(name);
  held.set(name, flags);
  return flags;
};

const keep = (board: string, gig: string, flags: readonly GigFlag[]): void => {
  const name = nameOf(board, gig);
  held.set(name, flags);
  remember(name, JSON.stringify(flags));
  for (const listener of listeners) listener();
};

/** Flags a song at a moment (ms), or takes its flag away; what is so already stays as it is. */
export const flagSong = (board: string, gig: string, song: string, at: number | null): void => {
  const flags = gigFlags(board, gig);
  if (flags.some((flag) => flag.song === song) === (at !== null)) return;
  keep(board, gig, at === null ? flags.filter((flag) => flag.song !== song) : [...flags, { song, at }]);
};

/** Forgets the flags of a gig, once they have become slips or details. */
export const forgetGigFlags = (board: string, gig: string): void => keep(board, gig, NONE);

const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => {
    listeners.delete(listener);
  };
};

/** The flags of a gig on this device, as they change. */
export const useGigFlags = (board: string, gig: string): readonly GigFlag[] =>
  useSyncExternalStore(
    subscribe,
    useCallback(() => gigFlags(board, gig), [board, gig]),
  );
