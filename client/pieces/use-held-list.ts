import { useState } from "react";
import type { OwnChange } from "#client/store/board-store.ts";
import { useOwnChanges } from "#client/store/hooks.ts";

/** A record of a list that holds still. */
export interface Held<T> {
  readonly item: T;
  /** Taken off the board by somebody else while the list was open. */
  readonly gone: boolean;
}

export interface HeldList<T> {
  readonly shown: readonly Held<T>[];
  /** Records somebody else added meanwhile. */
  readonly added: number;
  /** Somebody else added, removed or moved something. */
  readonly stale: boolean;
  /** Shows the list as it is now. */
  readonly refresh: () => void;
}

/** True when one's own change was about details: then the list follows at once, because one's thumb is elsewhere. */
const isAboutDetails = (change: OwnChange | undefined): boolean =>
  change?.written.some(({ map }) => map === "cards") ?? false;

/**
 * Holds the order of a list of details while it is open, so that nothing moves under a thumb when somebody else
 * adds, removes or moves one. The records themselves stay fresh. One's own changes to the list show at once.
 */
export const useHeldList = <T>(items: readonly T[], idOf: (item: T) => string): HeldList<T> => {
  const latest = useOwnChanges()[0];
  const [held, setHeld] = useState({ items, latest });
  const ownNews = latest !== held.latest;
  const follow = ownNews && isAboutDetails(latest);
  const current = follow ? items : held.items;
  if (ownNews) setHeld({ items: current, latest });
  const live = new Map(items.map((item) => [idOf(item), item]));
  const known = new Set(current.map(idOf));
  return {
    shown: current.map((item) => ({ item: live.get(idOf(item)) ?? item, gone: !live.has(idOf(item)) })),
    added: items.filter((item) => !known.has(idOf(item))).length,
    stale:
      items.length !== current.length || items.some((item, i) => idOf(item) !== idOf(current[i] ?? item)),
    refresh: () => setHeld({ items, latest }),
  };
};
