import { type KeyboardEvent, type RefObject, useLayoutEffect, useRef, useState } from "react";

export interface Steps {
  /** Puts a list element under watch: `ref={steps.list}`. */
  readonly list: RefObject<HTMLElement | null>;
  /** Said politely after a move: `Bass is now number 2 of 6`. */
  readonly said: string;
  readonly move: (id: string, by: -1 | 1) => void;
  /** Alt and an arrow move the row they are pressed in. */
  readonly onKeyDown: (id: string) => (event: KeyboardEvent) => void;
}

export interface StepsOptions {
  /** In order. */
  readonly items: readonly { readonly id: string; readonly name: string }[];
  /** Puts an item at a place among the others; false = it was refused. */
  readonly onMove: (id: string, index: number, name: string) => boolean;
  /** A step past an end is handed over as well: there may be another list to go on in. */
  readonly pastEnds?: boolean;
}

/**
 * Reordering without dragging: one step up or down, by button or by Alt and an arrow. The focus stays on the control
 * it was on, although its row has moved.
 */
export const useSteps = ({ items, onMove, pastEnds = false }: StepsOptions): Steps => {
  const list = useRef<HTMLElement | null>(null);
  const focused = useRef<HTMLElement | null>(null);
  const [said, setSaid] = useState("");
  useLayoutEffect(() => {
    // Moving a row in the page takes the focus away from what is in it.
    const before = focused.current;
    if (before?.isConnected && list.current?.contains(before) && document.activeElement !== before)
      before.focus();
    focused.current = null;
  });
  const move = (id: string, by: -1 | 1) => {
    const at = items.findIndex((item) => item.id === id);
    const item = items[at];
    const to = at + by;
    if (item === undefined || (!pastEnds && (to < 0 || to >= items.length))) return;
    focused.current = document.activeElement instanceof HTMLElement ? document.activeElement : null;
    if (onMove(id, to, item.name))
      setSaid(
        `${item.name} is now number ${Math.min(items.length, Math.max(1, to + 1))} of ${items.length}.`,
      );
  };
  return {
    list,
    said,
    move,
    onKeyDown: (id) => (event) => {
      if (!event.altKey || (event.key !== "ArrowUp" && event.key !== "ArrowDown")) return;
      event.preventDefault();
      move(id, event.key === "ArrowUp" ? -1 : 1);
    },
  };
};
