/**
 * One bar of a rhythm as its onsets on a grid of equal steps. Step 0 is beat 1, and a bar is followed by itself: every
 * measure here is cyclic unless it says otherwise. A grid holds what is written; it says nothing about milliseconds.
 */

export interface Pattern {
  /** Steps of the bar, at least 1. */
  readonly steps: number;
  /** Steps with an onset, ascending, each once, 0 to `steps` − 1. */
  readonly onsets: readonly number[];
}

/** Reads `x..x..x.`, or `1001001000101000` as rhythm is printed in the literature: anything but `.`, `0`, `-` is an onset. */
export const readPattern = (text: string): Pattern => {
  const onsets: number[] = [];
  for (let step = 0; step < text.length; step += 1) if (!".0-".includes(text[step] ?? ".")) onsets.push(step);
  return { steps: Math.max(1, text.length), onsets };
};

export const hasOnset = ({ onsets }: Pattern, step: number): boolean => onsets.includes(step);

/** Share of the steps that have an onset, 0 to 1. */
export const density = ({ steps, onsets }: Pattern): number => onsets.length / steps;

/** The pattern begun so many steps later; whole bars leave it as it is. */
export const rotated = ({ steps, onsets }: Pattern, by: number): Pattern => ({
  steps,
  onsets: onsets.map((step) => mod(step + by, steps)).sort((a, b) => a - b),
});

export const mod = (n: number, of: number): number => ((n % of) + of) % of;

/** Steps from each onset to the next one round the bar; one onset is a whole bar from itself. */
export const gaps = ({ steps, onsets }: Pattern): readonly number[] =>
  onsets.map((step, i) => mod((onsets[(i + 1) % onsets.length] ?? step) - step, steps) || steps);
