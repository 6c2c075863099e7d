import { type PointerEvent, useState } from "react";

/** Where something would land: before a song, or at the end of a block. */
export interface Landing {
  readonly block: number;
  /** Place among all songs of the block as it stands. */
  readonly at: number;
}

export interface Dragging {
  /** The song under the finger; null = none. */
  readonly song: string | null;
  readonly landing: Landing | null;
  /** For the handle of a song's row. */
  readonly handle: (song: string) => {
    readonly onPointerDown: (event: PointerEvent<HTMLElement>) => void;
    readonly onPointerMove: (event: PointerEvent<HTMLElement>) => void;
    readonly onPointerUp: () => void;
    readonly onPointerCancel: () => void;
  };
}

/** The row a point lies over or nearest below, by its block and place. */
const landingAt = (list: HTMLElement, y: number): Landing | null => {
  let found: Landing | null = null;
  for (const [block, rows] of [...list.querySelectorAll("ol")].entries()) {
    const songs = [...rows.children];
    const top = rows.getBoundingClientRect().top;
    if (found === null || y > top) found = { block, at: 0 };
    for (const [at, row] of songs.entries()) {
      const box = row.getBoundingClientRect();
      if (y > box.top + box.height / 2) found = { block, at: at + 1 };
    }
  }
  return found;
};

/**
 * Dragging by a handle, with a mouse or a finger. `list` holds an `ol` for each block. Everything that can be dragged can
 * be stepped by buttons and keys as well.
 */
export const useDrag = (
  list: { readonly current: HTMLElement | null },
  onDrop: (song: string, landing: Landing) => void,
): Dragging => {
  const [song, setSong] = useState<string | null>(null);
  const [landing, setLanding] = useState<Landing | null>(null);
  const end = (): void => {
    setSong(null);
    setLanding(null);
  };
  return {
    song,
    landing,
    handle: (id) => ({
      onPointerDown: (event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        setSong(id);
      },
      onPointerMove: (event) => {
        if (song === id && list.current !== null) setLanding(landingAt(list.current, event.clientY));
      },
      onPointerUp: () => {
        if (song === id && landing !== null) onDrop(id, landing);
        end();
      },
      onPointerCancel: end,
    }),
  };
};
