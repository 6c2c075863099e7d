/** Milliseconds in one day: every span of the computation is measured in days. */
export const DAY = 86_400_000;

/**
 * What is left of a memory after `x` half-lives: a power law of forgetting with ret(0) = 1 and ret(1) = 1/2.
 * `d` is the exponent; the larger it is, the thinner the tail. Shape: Wickelgren 1974; Wixted & Ebbesen 1997.
 */
export const ret = (x: number, d: number): number => (1 + x * (2 ** (1 / d) - 1)) ** -d;

/** `ret` of the time between two moments (ms) against a half-life in days. A moment still to come has not faded. */
export const fade = (from: number, to: number, halfLife: number, d: number): number =>
  from >= to ? 1 : ret((to - from) / (halfLife * DAY), d);
