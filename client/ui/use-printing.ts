import { useEffect, useState } from "react";
import { flushSync } from "react-dom";

/** True while the page is being printed, so that folded parts can unfold on paper. */
export const usePrinting = (): boolean => {
  const [printing, setPrinting] = useState(false);
  useEffect(() => {
    // The browser takes its picture right after the event, so the change must be on the page by then.
    const set = (value: boolean) => () => flushSync(() => setPrinting(value));
    const before = set(true);
    const after = set(false);
    window.addEventListener("beforeprint", before);
    window.addEventListener("afterprint", after);
    return () => {
      window.removeEventListener("beforeprint", before);
      window.removeEventListener("afterprint", after);
    };
  }, []);
  return printing;
};
