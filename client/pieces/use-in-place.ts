import { type RefObject, useLayoutEffect, useRef, useState } from "react";

export interface InPlace<E extends HTMLElement> {
  /** For the row that holds both the reading and the form. */
  readonly root: RefObject<E | null>;
  readonly editing: boolean;
  readonly edit: () => void;
  /** Closes the form; the focus goes back to where it was opened. */
  readonly done: () => void;
}

/** A row that turns into a form and back. `opener` selects, within the row, the control that opens it. */
export const useInPlace = <E extends HTMLElement>(opener: string): InPlace<E> => {
  const root = useRef<E>(null);
  const returning = useRef(false);
  const [editing, setEditing] = useState(false);
  // Only once the reading is back on the page is there something to focus.
  useLayoutEffect(() => {
    if (editing || !returning.current) return;
    returning.current = false;
    root.current?.querySelector<HTMLElement>(opener)?.focus();
  }, [editing, opener]);
  return {
    root,
    editing,
    edit: () => setEditing(true),
    done: () => {
      returning.current = true;
      setEditing(false);
    },
  };
};
