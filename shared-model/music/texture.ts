/**
 * Who plays when, as numbers: how full each section is, what changes at each joint, and where the song might breathe.
 * A section without chairs has no energy. Levels and weights are common practice, with no published source.
 */
import type { Presence } from "../board/texture.ts";

/** Worth of each presence, 0 to 1. */
export const PRESENCE_LEVEL: Readonly<Record<Presence, number>> = {
  rest: 0,
  light: 0.35,
  play: 0.7,
  full: 1,
};

export interface Texture {
  /** Weight of each chair, above 0: drums 1.4, lead voice 1.3, bass 1.2, others 1. */
  readonly weights: readonly number[];
  /** For each section, in playing order, the level of each chair, 0 to 1. */
  readonly sections: readonly (readonly number[])[];
}

const total = (numbers: readonly number[]): number => numbers.reduce((sum, n) => sum + n, 0);

const weighted = (weights: readonly number[], value: (chair: number) => number): number => {
  const all = total(weights);
  return all === 0 ? 0 : weights.reduce((sum, weight, chair) => sum + weight * value(chair), 0) / all;
};

/** Weighted mean level of a section's chairs, 0 to 1. */
export const energyOf = (weights: readonly number[], levels: readonly number[]): number =>
  weighted(weights, (chair) => levels[chair] ?? 0);

/** What happens from one section to the next. */
export interface Joint {
  /** Share of the band that changes, 0 to 1. */
  readonly contrast: number;
  /** Rise of the energy, −1 to 1; never more than the contrast. */
  readonly lift: number;
}

/** The joint after each section but the last. */
export const jointsOf = ({ weights, sections }: Texture): readonly Joint[] =>
  sections.slice(1).map((levels, i) => {
    const before = sections[i] ?? [];
    return {
      contrast: weighted(weights, (chair) => Math.abs((levels[chair] ?? 0) - (before[chair] ?? 0))),
      lift: weighted(weights, (chair) => (levels[chair] ?? 0) - (before[chair] ?? 0)),
    };
  });

/** Bars on each side of the kernel. */
const KERNEL_BARS = 4;

/**
 * How new each bar is against the four before it: the checkerboard kernel of Foote, "Automatic Audio Segmentation Using a
 * Measure of Audio Novelty" (ICME 2000), over bars whose likeness is 1 less their weighted difference. 0 where nothing
 * changes within four bars; at most 1. Bars near an end are compared with as many as there are.
 */
export const noveltyOf = (
  weights: readonly number[],
  bars: readonly (readonly number[])[],
): readonly number[] => {
  const unlike = (a: number, b: number): number =>
    weighted(weights, (chair) => Math.abs((bars[a]?.[chair] ?? 0) - (bars[b]?.[chair] ?? 0)));
  return bars.map((_, at) => {
    const reach = Math.min(KERNEL_BARS, at, bars.length - at);
    let across = 0;
    let within = 0;
    for (let i = 0; i < reach; i += 1)
      for (let j = 0; j < reach; j += 1) {
        across += unlike(at - 1 - i, at + j);
        within += (unlike(at - 1 - i, at - 1 - j) + unlike(at + i, at + j)) / 2;
      }
    return reach === 0 ? 0 : Math.max(0, across - within) / (reach * reach);
  });
};

/** What could be asked about a form; each can be dismissed for its song. */
export type Hint =
  /** The chorus comes in hardly bigger than what was before it. */
  | { readonly of: "no lift"; readonly section: number }
  /** Three sections or more in one level: nothing happens at their joints. */
  | { readonly of: "one level"; readonly from: number; readonly to: number }
  /** Everybody gives the most they give anywhere in the first section already. */
  | { readonly of: "all in" }
  /** The last chorus is smaller than one before it. */
  | { readonly of: "last chorus"; readonly section: number; readonly bigger: number }
  /** From the smallest section to the biggest there is little room. */
  | { readonly of: "narrow" };

/** Least rise into a chorus, and least change that a joint should show. */
const AUDIBLE = 0.08;
/** Least distance between the smallest section and the biggest. */
const WIDE = 0.25;
/** Sections in one level before it is said. */
const LEVEL_SECTIONS = 3;

const oneLevel = (joints: readonly Joint[]): readonly Hint[] => {
  const found: Hint[] = [];
  let from = 0;
  for (let at = 0; at <= joints.length; at += 1) {
    const joint = joints[at];
    if (joint !== undefined && joint.contrast < AUDIBLE) continue;
    if (at - from + 1 >= LEVEL_SECTIONS) found.push({ of: "one level", from, to: at });
    from = at + 1;
  }
  return found;
};

/**
 * What a good listener would ask. `choruses` are the indexes of the sections that are choruses, ascending. Fewer than two
 * sections raise no question.
 */
export const hintsOf = (texture: Texture, choruses: readonly number[]): readonly Hint[] => {
  const { weights, sections } = texture;
  if (sections.length < 2) return [];
  const joints = jointsOf(texture);
  const energy = sections.map((levels) => energyOf(weights, levels));
  const hints: Hint[] = [];
  for (const section of choruses)
    if (section > 0 && (joints[section - 1]?.lift ?? 1) < AUDIBLE) hints.push({ of: "no lift", section });
  hints.push(...oneLevel(joints));
  const most = weights.map((_, chair) => Math.max(...sections.map((levels) => levels[chair] ?? 0)));
  if (most.some((level) => level > 0) && most.every((level, chair) => (sections[0]?.[chair] ?? 0) === level))
    hints.push({ of: "all in" });
  const last = choruses.at(-1);
  const bigger = choruses.find(
    (section) => last !== undefined && section < last && (energy[section] ?? 0) > (energy[last] ?? 0) + 1e-9,
  );
  if (last !== undefined && bigger !== undefined) hints.push({ of: "last chorus", section: last, bigger });
  if (Math.max(...energy) - Math.min(...energy) < WIDE) hints.push({ of: "narrow" });
  return hints;
};

/**
 * The chair that could wait before a section, so that the section arrives: the lightest of those that play on both sides of
 * the joint, as the song misses it least. Null where nobody does.
 */
export const couldWait = ({ weights, sections }: Texture, section: number): number | null => {
  const [before, now] = [sections[section - 1] ?? [], sections[section] ?? []];
  let best: number | null = null;
  weights.forEach((weight, chair) => {
    const waits = (before[chair] ?? 0) > 0 && (now[chair] ?? 0) > 0;
    if (waits && (best === null || weight < (weights[best] ?? 0))) best = chair;
  });
  return best;
};
