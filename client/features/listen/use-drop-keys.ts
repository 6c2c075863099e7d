import { useEffect, useRef } from "react";

/** What is typed into keeps its own keys; a button that was pressed does not keep the digits. */
const TYPED = "input,select,textarea,dialog";

/** 1 to 9 drop a detail for a chair in the order shown, 0 for nobody yet. */
export const useDropKeys = (drop: (index: number) => void): void => {
  const latest = useRef(drop);
  useEffect(() => {
    latest.current = drop;
  });
  useEffect(() => {
    const onKeyDown = (event: KeyboardEvent): void => {
      if (!/^\d$/.test(event.key) || event.repeat || event.ctrlKey || event.metaKey || event.altKey) return;
      if (event.target instanceof Element && event.target.closest(TYPED) !== null) return;
      event.preventDefault();
      latest.current(Number(event.key));
    };
    document.addEventListener("keydown", onKeyDown);
    return () => document.removeEventListener("keydown", onKeyDown);
  }, []);
};
