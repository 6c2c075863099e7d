/**
 * Multiple-choice knapsack, exact (Sinha & Zoltners 1979): at most one plan per song, in one of several stretches of the
 * evening, each with its own minutes. Dynamic programming on a half-minute grid; costs are rounded up to it and minutes down,
 * so an evening is never overfilled.
 */
import type { Id } from "../board/ids.ts";

/** One way to spend room time on a song. */
export interface Choice {
  /** Stretch of the evening it would be played in, from 0. */
  readonly phase: number;
  readonly minutes: number;
  readonly value: number;
}

export interface Menu<C extends Choice = Choice> {
  readonly song: Id;
  /** Has to get one of its choices. */
  readonly must: boolean;
  readonly choices: readonly C[];
}

export interface Solution {
  readonly value: number;
  /** Song → index among its menu's choices. */
  readonly chosen: ReadonlyMap<Id, number>;
}

const halves = (minutes: number): number => Math.ceil(minutes * 2 - 1e-9);
const NOT_REACHED = Number.NEGATIVE_INFINITY;

/**
 * The best choice for every song; null when the musts do not fit. `minutes`: those of each phase. States are the product of the
 * phases' half minutes, so two phases are cheap and more are not. Menus in another order give the same solution.
 */
export const solve = (menus: readonly Menu[], minutes: readonly number[]): Solution | null => {
  const sizes = minutes.map((m) => Math.max(0, Math.floor(m * 2 + 1e-9)) + 1);
  const strides = sizes.map((_, p) => sizes.slice(0, p).reduce((a, b) => a * b, 1));
  const states = sizes.reduce((a, b) => a * b, 1);
  const sorted = [...menus].sort((a, b) => (a.song < b.song ? -1 : 1));
  let best = new Float64Array(states);
  const picks = sorted.map(({ must, choices }) => {
    const next = must ? new Float64Array(states).fill(NOT_REACHED) : best.slice();
    const pick = new Int16Array(states).fill(-1);
    for (const [i, { phase, minutes: cost, value }] of choices.entries()) {
      const [size, stride, w] = [sizes[phase], strides[phase], halves(cost)];
      if (size === undefined || stride === undefined || w >= size) continue;
      // Every run of `stride` states shares one amount of this phase's time.
      for (let block = w * stride; block < states; block += size * stride)
        for (let s = block; s < block + (size - w) * stride; s += 1) {
          const got = (best[s - w * stride] ?? NOT_REACHED) + value;
          if (got > (next[s] ?? NOT_REACHED)) {
            next[s] = got;
            pick[s] = i;
          }
        }
    }
    best = next;
    return pick;
  });
  let state = states - 1;
  const value = best[state] ?? 0;
  if (value === NOT_REACHED) return null;
  const chosen = new Map<Id, number>();
  for (let k = sorted.length - 1; k >= 0; k -= 1) {
    const menu = sorted[k];
    const i = picks[k]?.[state] ?? -1;
    const choice = menu?.choices[i];
    if (menu === undefined || choice === undefined) continue;
    chosen.set(menu.song, i);
    state -= halves(choice.minutes) * (strides[choice.phase] ?? 1);
  }
  return { value, chosen };
};

/** Musts that have to give way, dearest first, until the others fit; empty = all fit. Pure arithmetic on their cheapest choices. */
export const mustsTooMany = (menus: readonly Menu[], minutes: readonly number[]): readonly Id[] => {
  const cheapest = ({ choices }: Menu): number => Math.min(...choices.map((choice) => choice.minutes));
  const musts = menus
    .filter(({ must }) => must)
    .sort((a, b) => cheapest(b) - cheapest(a) || (a.song < b.song ? -1 : 1));
  const dropped: Id[] = [];
  for (;;) {
    const left = musts.filter(({ song }) => !dropped.includes(song));
    const [first] = left;
    if (first === undefined || solve(left, minutes) !== null) return dropped;
    dropped.push(first.song);
  }
};
