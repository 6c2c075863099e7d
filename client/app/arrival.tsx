import { useEffect, useRef } from "react";

/**
 * Brings the focus to the heading of the screen one arrives at, and the view to its top. Stands beside the screen
 * inside the same Suspense boundary, so it acts when the screen is there. The first screen is left to the browser.
 */
export const Arrival = ({ at }: { readonly at: string }) => {
  const last = useRef<string | null>(null);
  useEffect(() => {
    const before = last.current;
    last.current = at;
    if (before === null || before === at) return;
    const target =
      document.querySelector<HTMLElement>("main h1") ?? document.querySelector<HTMLElement>("main");
    window.scrollTo(0, 0);
    target?.focus({ preventScroll: true });
  }, [at]);
  return null;
};
