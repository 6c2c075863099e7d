import { useCallback, useState } from "react";

const read = (key: string): string => {
  try {
    return window.sessionStorage.getItem(key) ?? "";
  } catch {
    return "";
  }
};

const write = (key: string, text: string): void => {
  try {
    if (text === "") window.sessionStorage.removeItem(key);
    else window.sessionStorage.setItem(key, text);
  } catch {
    // Storage is closed to this page or full: the draft then lasts as long as the screen.
  }
};

/** A text being written, kept over a reload of the tab. `name` tells drafts apart. */
export const useDraft = (name: string): readonly [string, (text: string) => void] => {
  const key = `tightrow.draft.${name}`;
  const [text, setText] = useState(() => read(key));
  const change = useCallback(
    (next: string) => {
      setText(next);
      write(key, next);
    },
    [key],
  );
  return [text, change];
};
