/**
 * Measures how long something lasts on a clock that somebody may set: time that only moves on. Answers the clock's
 * moment (ms) at first; when the clock is set back, the time before counts, and it goes on from there.
 */
export const createSteadyClock = (clock: () => number): (() => number) => {
  let seen = clock();
  let passed = seen;
  return () => {
    const now = clock();
    passed += Math.max(0, now - seen);
    seen = now;
    return passed;
  };
};
