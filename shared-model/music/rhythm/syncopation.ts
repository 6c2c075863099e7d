/** Published measures of how much a bar pulls against its beat. They describe a pattern; none of them is better or worse. */
import { gaps, mod, type Pattern } from "./pattern.ts";

/**
 * Weighted note-to-beat distance (Gómez, Melvin, Rappaport & Toussaint, "Mathematical Measures of Syncopation", BRIDGES
 * 2005): the mean over the onsets of 0 on a beat, else 1/T, or 2/T when the note lasts past the next beat and ends before
 * the one after, T being the distance to the nearest beat in beats. A note lasts until the next onset. 0 for a silent bar.
 */
export const noteToBeatDistance = (pattern: Pattern, perBeat: number): number => {
  const lasting = gaps(pattern);
  let sum = 0;
  pattern.onsets.forEach((step, i) => {
    const late = step % perBeat;
    if (late === 0) return;
    const distance = Math.min(late, perBeat - late) / perBeat;
    const toNext = perBeat - late;
    const end = lasting[i] ?? 0;
    sum += (end > toNext && end < toNext + perBeat ? 2 : 1) / distance;
  });
  return pattern.onsets.length === 0 ? 0 : sum / pattern.onsets.length;
};

const coprime = (a: number, b: number): boolean => (b === 0 ? a === 1 : coprime(b, a % b));

/**
 * Off-beatness (Toussaint, *The Geometry of Musical Rhythm*, 2013): onsets on steps that no even division of the bar, begun
 * on beat 1, ever touches. Of 16 steps those are the odd ones, of 12 they are 1, 5, 7 and 11.
 */
export const offBeatness = ({ steps, onsets }: Pattern): number =>
  onsets.filter((step) => coprime(step, steps)).length;

/** Smallest prime divisor; 1 for 1. */
const leastDivisor = (n: number): number => {
  for (let d = 2; d * d <= n; d += 1) if (n % d === 0) return d;
  return n;
};

/**
 * Metrical weight of every step, 0 for beat 1 and one less for each level of the metre below it: first the beats, halved
 * where they can be, then what a beat is divided into. 16 steps of 4: 0 −4 −3 −4 −2 −4 −3 −4 −1 …
 */
export const metricalWeights = (steps: number, perBeat: number): readonly number[] => {
  const levels: number[] = [steps];
  const divide = (span: number, until: number): void => {
    let rest = span;
    while (rest > until) {
      rest /= leastDivisor(rest / until);
      levels.push(rest);
    }
  };
  divide(steps, perBeat);
  divide(perBeat, 1);
  return Array.from({ length: steps }, (_, step) => -levels.findIndex((span) => step % span === 0) || 0);
};

/**
 * Syncopation after Longuet-Higgins & Lee (1984), read round the bar: for each onset the weight of the heaviest step that it
 * is held over, less its own, where that is more. 0 for a bar that is never held over a heavier step.
 */
export const heldOver = (pattern: Pattern, perBeat: number): number => {
  const weights = metricalWeights(pattern.steps, perBeat);
  const lasting = gaps(pattern);
  let sum = 0;
  pattern.onsets.forEach((step, i) => {
    const own = weights[step] ?? 0;
    let heaviest = Number.NEGATIVE_INFINITY;
    for (let after = 1; after < (lasting[i] ?? 0); after += 1)
      heaviest = Math.max(heaviest, weights[mod(step + after, pattern.steps)] ?? 0);
    if (heaviest > own) sum += heaviest - own;
  });
  return sum;
};
