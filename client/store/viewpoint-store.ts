import type { BoardStore } from "./board-store.ts";
import { createListeners } from "./listeners.ts";
import { sameViewpoint, type Viewpoint, viewpointAt } from "./viewpoint.ts";

export interface ViewpointStore {
  /** The same reference until something about it changes. */
  readonly current: () => Viewpoint;
  readonly subscribe: (listener: () => void) => () => void;
  /** Looks ahead to another gig; null = always the next one. Remembered on this device. */
  readonly lookAt: (gig: string | null) => void;
  /** Looks at the clock again. */
  readonly refresh: () => void;
}

const remembered = (key: string): string | null => {
  try {
    return window.localStorage.getItem(key);
  } catch {
    return null;
  }
};

const remember = (key: string, gig: string | null): void => {
  try {
    if (gig === null) window.localStorage.removeItem(key);
    else window.localStorage.setItem(key, gig);
  } catch {
    // Storage is forbidden here; the choice then lasts as long as the page.
  }
};

/** Follows the board's gigs and the clock. */
export const createViewpointStore = (store: BoardStore, boardId: string): ViewpointStore => {
  const key = `tightrow.gig.${boardId}`;
  const listeners = createListeners<"viewpoint">();
  let chosen = remembered(key);
  let current = viewpointAt(store.board(), store.now(), chosen);
  const refresh = (): void => {
    const next = viewpointAt(store.board(), store.now(), chosen);
    if (sameViewpoint(current, next)) return;
    current = next;
    listeners.notify(["viewpoint"]);
  };
  store.subscribe("gigs", refresh);
  store.subscribe("band", refresh);
  return {
    current: () => current,
    subscribe: (listener) => listeners.subscribe("viewpoint", listener),
    lookAt: (gig) => {
      chosen = gig;
      remember(key, gig);
      refresh();
    },
    refresh,
  };
};
