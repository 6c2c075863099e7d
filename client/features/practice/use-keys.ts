import { useEffect, useRef } from "react";

export interface PracticeKeys {
  readonly toggle: () => void;
  readonly again: () => void;
  readonly shift: (by: number) => void;
}

/** What a player can hold on to keeps its own keys. */
const OWN_KEYS = "a,button,input,select,textarea,summary,dialog,[role='menuitem']";

/** Beats per minute that one press changes. */
export const SHIFT = 2;

/**
 * After a press with a finger or a mouse in `data-hands-free` the space bar is for the click again, and not for what
 * was pressed; but for a pad to tap on (`data-keeps-focus`). A press by a key counts no clicks.
 */
const letGo = ({ detail, target }: MouseEvent): void => {
  if (detail === 0 || !(target instanceof Element) || target.closest("[data-hands-free]") === null) return;
  // The field of a label takes the focus after the press.
  window.setTimeout(() => {
    const at = document.activeElement;
    if (at instanceof HTMLElement && at.closest("[data-keeps-focus]") === null) at.blur();
  });
};

/**
 * Keys for hands that hold an instrument, the ones that foot pedals send: space or PageDown starts and stops, PageUp
 * begins again, left and right are slower and faster.
 */
export const useKeys = (keys: PracticeKeys): void => {
  const latest = useRef(keys);
  useEffect(() => {
    latest.current = keys;
  });
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      const { toggle, again, shift } = latest.current;
      const act = new Map([
        [" ", toggle],
        ["PageDown", toggle],
        ["PageUp", again],
        ["ArrowLeft", () => shift(-SHIFT)],
        ["ArrowRight", () => shift(SHIFT)],
      ]).get(event.key);
      if (act === undefined || event.repeat || event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.target instanceof Element && event.target.closest(OWN_KEYS) !== null) return;
      event.preventDefault();
      act();
    };
    document.addEventListener("keydown", onKeyDown);
    document.addEventListener("click", letGo);
    return () => {
      document.removeEventListener("keydown", onKeyDown);
      document.removeEventListener("click", letGo);
    };
  }, []);
};
