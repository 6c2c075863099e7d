/** How a part and the kick share the bar: where they meet, where one leaves room, and what pushes ahead of the beat. */
import { hasOnset, mod, type Pattern } from "./pattern.ts";

export interface Interlock {
  /** Steps where both sound. */
  readonly both: readonly number[];
  readonly kickAlone: readonly number[];
  readonly partAlone: readonly number[];
  /** 2·both / (onsets of the one + onsets of the other), after Dice 1945: 0 to 1; 1 when both are silent. */
  readonly meet: number;
  /**
   * The phi coefficient of the two bars, −1 to 1: agreement beyond what as busy parts would have by chance. Null where one
   * of them sounds on every step or on none, as there is nothing to agree on.
   */
  readonly beyondChance: number | null;
}

/** Both must have the same number of steps; throws RangeError otherwise. */
export const interlock = (kick: Pattern, part: Pattern): Interlock => {
  if (kick.steps !== part.steps) throw new RangeError(`${kick.steps} steps against ${part.steps}`);
  const both = kick.onsets.filter((step) => hasOnset(part, step));
  const kickAlone = kick.onsets.filter((step) => !hasOnset(part, step));
  const partAlone = part.onsets.filter((step) => !hasOnset(kick, step));
  const sounding = kick.onsets.length + part.onsets.length;
  return {
    both,
    kickAlone,
    partAlone,
    meet: sounding === 0 ? 1 : (2 * both.length) / sounding,
    beyondChance: phi(both.length, kickAlone.length, partAlone.length, kick.steps),
  };
};

const phi = (both: number, first: number, second: number, steps: number): number | null => {
  const neither = steps - both - first - second;
  const scale = Math.sqrt((both + first) * (second + neither) * (both + second) * (first + neither));
  return scale === 0 ? null : (both * neither - first * second) / scale;
};

export interface Push {
  readonly step: number;
  /** The beat it comes before, counted from 1. */
  readonly beat: number;
  /** Steps it comes early, 1 or 2. */
  readonly early: 1 | 2;
  /** True when the kick sounds on the same step. */
  readonly shared: boolean;
}

/** A part's onsets one or two steps before a beat that the part itself leaves out; the nearer one speaks for its beat. */
export const pushes = (part: Pattern, kick: Pattern, perBeat: number): readonly Push[] => {
  const found: Push[] = [];
  for (let at = 0; at < part.steps; at += perBeat) {
    if (hasOnset(part, at)) continue;
    for (const early of [1, 2] as const) {
      if (early >= perBeat) break;
      const step = mod(at - early, part.steps);
      if (!hasOnset(part, step)) continue;
      found.push({ step, beat: at / perBeat + 1, early, shared: hasOnset(kick, step) });
      break;
    }
  }
  return found.sort((a, b) => a.step - b.step);
};
