/** Longest stretch of computing (ms) between two chances for the page to answer. */
const SLICE_MS = 8;

/**
 * Walks through `steps` after the page has been painted, a few at a time, and hands over everything they yielded.
 * Returns how to give it up.
 */
export const inSlices = <T>(steps: Iterator<T, void>, done: (found: T[]) => void): (() => void) => {
  const found: T[] = [];
  const work = (): void => {
    const until = performance.now() + SLICE_MS;
    while (performance.now() < until) {
      const step = steps.next();
      if (step.done) {
        done(found);
        return;
      }
      found.push(step.value);
    }
    timer = window.setTimeout(work);
  };
  let timer = window.setTimeout(work);
  return () => window.clearTimeout(timer);
};
