import { useEffect, useRef } from "react";

/**
 * Brings the focus to the heading of the screen one arrives at, and into view what the address points out on it
 * (`data-pointed-out`), else its top. Stands beside the screen inside the same Suspense boundary, so it acts when the
 * screen is there. The focus on the first screen is left to the browser.
 */
export const Arrival = ({ at }: { readonly at: string }) => {
  const last = useRef<string | null>(null);
  useEffect(() => {
    const before = last.current;
    last.current = at;
    if (before === at) return;
    const pointedOut = document.querySelector("main [data-pointed-out]");
    if (pointedOut !== null) pointedOut.scrollIntoView({ block: "center" });
    if (before === null) return;
    if (pointedOut === null) window.scrollTo(0, 0);
    const target =
      document.querySelector<HTMLElement>("main h1") ?? document.querySelector<HTMLElement>("main");
    target?.focus({ preventScroll: true });
  }, [at]);
  return null;
};
