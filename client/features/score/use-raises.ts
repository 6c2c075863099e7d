import { useEffect, useState } from "react";
import type { SongView } from "#client/store/song-view.ts";
import { biggestFirst, type Raise, raiseEach } from "#shared/readiness/raise.ts";

/** Longest stretch of computing (ms) between two chances for the page to answer. */
const SLICE_MS = 8;

/**
 * Every single action tried after the panel has been painted, a few at a time: on a song with eighty details that is
 * a tenth of a second of work in all. While a change is being worked out the last answer stays; null = none yet.
 */
export const useRaises = (view: SongView): readonly Raise[] | null => {
  const [raises, setRaises] = useState<readonly Raise[] | null>(null);
  const { input, people } = view;
  useEffect(() => {
    const found: Raise[] = [];
    const steps = raiseEach(input, [...people.keys()]);
    let timer = 0;
    const work = (): void => {
      const until = performance.now() + SLICE_MS;
      while (performance.now() < until) {
        const step = steps.next();
        if (step.done) {
          setRaises(found.sort(biggestFirst));
          return;
        }
        found.push(step.value);
      }
      timer = window.setTimeout(work);
    };
    timer = window.setTimeout(work);
    return () => window.clearTimeout(timer);
  }, [input, people]);
  return raises;
};
