/**
 * Moving about the grid by keyboard: the grid pattern of the WAI-ARIA Authoring Practices. One tab stop; arrows,
 * Home and End within a row, with Ctrl to the corners, PageUp and PageDown by what is in sight.
 */
import { type KeyboardEvent, type RefObject, useCallback, useState } from "react";

export interface GridPlace {
  readonly song: string;
  readonly column: string;
}

export interface GridShape {
  readonly songs: readonly string[];
  readonly columns: readonly string[];
}

const clamp = (value: number, length: number): number => Math.max(0, Math.min(length - 1, value));

/** Where a key leads, from row and column numbers; null = the key means nothing here. `page` is in rows. */
export const keyTarget = (
  key: string,
  ctrl: boolean,
  [row, column]: readonly [number, number],
  { songs, columns }: GridShape,
  page: number,
): readonly [number, number] | null => {
  const [lastRow, lastColumn] = [songs.length - 1, columns.length - 1];
  switch (key) {
    case "ArrowUp":
      return [row - 1, column];
    case "ArrowDown":
      return [row + 1, column];
    case "ArrowLeft":
      return [row, column - 1];
    case "ArrowRight":
      return [row, column + 1];
    case "Home":
      return [ctrl ? 0 : row, 0];
    case "End":
      return [ctrl ? lastRow : row, lastColumn];
    case "PageUp":
      return [row - page, column];
    case "PageDown":
      return [row + page, column];
    default:
      return null;
  }
};

/** The focusable element of a place. */
export const elementAt = (grid: HTMLElement, { song, column }: GridPlace): HTMLElement | null =>
  grid.querySelector<HTMLElement>(`[data-song="${CSS.escape(song)}"] [data-column="${CSS.escape(column)}"]`);

/** The place of an element inside the grid. */
export const placeOf = (element: Element): GridPlace | null => {
  const column = element.closest<HTMLElement>("[data-column]")?.dataset.column;
  const song = element.closest<HTMLElement>("[data-song]")?.dataset.song;
  return column === undefined || song === undefined ? null : { song, column };
};

const pageOf = (grid: HTMLElement, from: Element): number => {
  const height = from.closest("[data-song]")?.clientHeight ?? 0;
  return height > 0 ? Math.max(1, Math.floor(grid.clientHeight / height) - 1) : 1;
};

export interface GridKeys {
  /** Where the one tab stop is; the first cell while nobody has been anywhere. */
  readonly active: GridPlace | null;
  readonly onFocus: (event: { readonly target: Element }) => void;
  readonly onKeyDown: (event: KeyboardEvent<HTMLElement>) => void;
}

/** Keeps the tab stop and moves the focus. */
export const useGridKeys = (grid: RefObject<HTMLElement | null>, shape: GridShape): GridKeys => {
  const [been, setBeen] = useState<GridPlace | null>(null);
  const onFocus = useCallback(({ target }: { readonly target: Element }) => {
    const place = placeOf(target);
    if (place === null) return;
    setBeen((before) => (before?.song === place.song && before.column === place.column ? before : place));
  }, []);
  const onKeyDown = (event: KeyboardEvent<HTMLElement>): void => {
    if (event.altKey || event.metaKey || event.shiftKey || !(event.target instanceof Element)) return;
    const place = placeOf(event.target);
    if (place === null || grid.current === null) return;
    const from = [shape.songs.indexOf(place.song), shape.columns.indexOf(place.column)] as const;
    const page = pageOf(grid.current, event.target);
    const to = keyTarget(event.key, event.ctrlKey, from, shape, page);
    if (to === null) return;
    event.preventDefault();
    const song = shape.songs[clamp(to[0], shape.songs.length)];
    const column = shape.columns[clamp(to[1], shape.columns.length)];
    if (song === undefined || column === undefined) return;
    const element = elementAt(grid.current, { song, column });
    element?.focus({ preventScroll: true });
    // A browser's own scrolling to the focus leaves what is mostly in sight partly under the sticky heads.
    element?.scrollIntoView({ block: "nearest", inline: "nearest" });
  };
  const [song] = shape.songs;
  const [column] = shape.columns;
  const first = song === undefined || column === undefined ? null : { song, column };
  const stillThere = been !== null && shape.songs.includes(been.song) && shape.columns.includes(been.column);
  return { active: stillThere ? been : first, onFocus, onKeyDown };
};
