/** Longest stretch of computing (ms) between two chances for the page to answer. */
const SLICE_MS = 8;
/** A page that nobody sees draws no frame; then it begins after this long (ms). */
const NO_FRAME_MS = 100;

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
  const begin = (): void => {
    window.cancelAnimationFrame(frame);
    window.clearTimeout(timer);
    timer = window.setTimeout(work);
  };
  // A timer alone would be ahead of the frame, and what is on the screen would wait for the first stretches.
  const frame = window.requestAnimationFrame(begin);
  let timer = window.setTimeout(begin, NO_FRAME_MS);
  return () => {
    window.cancelAnimationFrame(frame);
    window.clearTimeout(timer);
  };
};
