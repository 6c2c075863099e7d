/** An order under search, and what a change of it costs. */
import { freeOf, pinnedIn, woven } from "./arrangement.ts";
import { blockCost, type Compiled } from "./compiled.ts";
import type { SetOrder } from "./set-facts.ts";
import { ORDER_WEIGHTS } from "./terms.ts";

/** Costs nearer than this are equal. */
export const EPSILON = 1e-9;

export interface Search {
  readonly compiled: Compiled;
  /** Free songs of each block. */
  readonly free: number[][];
  readonly unused: number[];
  readonly cost: (block: number, free: readonly number[]) => number;
  /** Cost of each block as it stands. */
  readonly costs: number[];
}

export const begin = (compiled: Compiled, from: SetOrder): Search => {
  const { brief } = compiled;
  const pinned = pinnedIn(compiled);
  const free = freeOf(from, compiled, pinned);
  const used = new Set([...pinned.songs, ...free.flat()]);
  const unused = brief.songs.flatMap((_, i) => (used.has(i) ? [] : [i]));
  const cost = (block: number, songs: readonly number[]): number => {
    const fixed = pinned.blocks[block] ?? [];
    const order = woven(songs, fixed);
    let broken = 0;
    for (const { song, at } of fixed) if (order.at(at) !== song) broken += 1;
    return blockCost(compiled, order, block) + ORDER_WEIGHTS.pin * broken;
  };
  return { compiled, free, unused, cost, costs: free.map((songs, block) => cost(block, songs)) };
};

export const orderOf = (search: Search, free: readonly (readonly number[])[]): SetOrder => {
  const { brief } = search.compiled;
  const pinned = pinnedIn(search.compiled);
  return free.map((songs, block) =>
    woven(songs, pinned.blocks[block] ?? []).flatMap((song) => brief.songs[song]?.id ?? []),
  );
};

/** A change of one or two blocks: what they become, and which song comes in or goes out. */
export interface Move {
  readonly blocks: readonly { readonly block: number; readonly free: readonly number[] }[];
  readonly comesIn: number | null;
  readonly goesOut: number | null;
}

/** By how much a move changes the cost. */
export const deltaOf = (search: Search, move: Move): number => {
  const { mustPlay } = search.compiled;
  let delta = 0;
  for (const { block, free } of move.blocks) delta += search.cost(block, free) - (search.costs[block] ?? 0);
  if (move.comesIn !== null && mustPlay[move.comesIn] === 1) delta -= ORDER_WEIGHTS.must;
  if (move.goesOut !== null && mustPlay[move.goesOut] === 1) delta += ORDER_WEIGHTS.must;
  return delta;
};

export const make = (search: Search, move: Move): void => {
  for (const { block, free } of move.blocks) {
    search.free[block] = [...free];
    search.costs[block] = search.cost(block, free);
  }
  if (move.comesIn !== null) search.unused.splice(search.unused.indexOf(move.comesIn), 1);
  if (move.goesOut !== null) search.unused.push(move.goesOut);
};
