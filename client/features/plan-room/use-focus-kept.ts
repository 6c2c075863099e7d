import { type FocusEvent, type RefObject, useLayoutEffect, useRef } from "react";

const rowsOf = (list: HTMLElement | null): readonly Element[] => [...(list?.children ?? [])];

/**
 * When the row that has the focus leaves the list, as a song does that is not wanted tonight, the focus goes to the row that
 * takes its place. `lines` = what the rows show.
 */
export const useFocusKept = (
  list: RefObject<HTMLElement | null>,
  lines: readonly unknown[],
): { readonly onFocus: (event: FocusEvent) => void } => {
  const last = useRef<{ readonly row: Element; readonly place: number } | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: rows leave when the lines change
  useLayoutEffect(() => {
    const left = last.current;
    if (left === null || left.row.isConnected || document.activeElement !== document.body) return;
    const rows = rowsOf(list.current);
    const row = rows[Math.min(left.place, rows.length - 1)];
    row?.querySelector<HTMLElement>("button")?.focus({ preventScroll: true });
  }, [lines]);
  return {
    onFocus: ({ target }) => {
      const rows = rowsOf(list.current);
      const place = rows.findIndex((row) => row.contains(target));
      const row = rows[place];
      last.current = row === undefined ? null : { row, place };
    },
  };
};
