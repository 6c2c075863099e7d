/**
 * Chooses and orders songs for the blocks of a night: greedy insertion for an answer at once, then annealing with a fixed
 * number of steps, then descent. The same brief, seed and number of steps give the same order on every device.
 */
import { seeded } from "../lib/seeded.ts";
import { type Compiled, compile } from "./compiled.ts";
import { allMoves, randomMove, withAt } from "./moves.ts";
import { begin, deltaOf, EPSILON, type Move, make, orderOf, type Search } from "./search.ts";
import type { SetBrief, SetOrder } from "./set-facts.ts";

/** Steps of about half a second on a laptop. */
export const ORDER_STEPS = 400_000;
/** Temperature at the first and the last step, in units of cost. */
const HOT = 2;
const COLD = 0.01;

interface Fit {
  readonly block: number;
  readonly free: readonly number[];
  readonly delta: number;
}

/** The cheapest place for a song in one block; of equal ones the first. */
const fitIn = (search: Search, song: number, block: number): Fit => {
  const free = search.free[block] ?? [];
  const tried = [song, ...free];
  const move = { blocks: [{ block, free: tried }], comesIn: song, goesOut: null };
  let [at, delta] = [0, deltaOf(search, move)];
  for (let next = 1; next <= free.length; next += 1) {
    // One place further: it changes places with the song behind it.
    [tried[next - 1], tried[next]] = [free[next - 1] as number, song];
    const there = deltaOf(search, move);
    if (there < delta) [at, delta] = [next, there];
  }
  return { block, free: withAt(free, at, song), delta };
};

/**
 * Puts in, one after another, the song that lowers the cost most, until none does. What a song costs in a block stays
 * the same until something is put into that block.
 */
const fill = (search: Search): void => {
  const fits = new Map(search.unused.map((song) => [song, search.free.map((): Fit | null => null)]));
  for (;;) {
    let best: Fit | null = null;
    let comesIn: number | null = null;
    for (const song of search.unused) {
      const known = fits.get(song) ?? [];
      for (const block of search.free.keys()) {
        const fit = known[block] ?? fitIn(search, song, block);
        known[block] = fit;
        if (fit.delta < (best?.delta ?? -EPSILON)) [best, comesIn] = [fit, song];
      }
    }
    if (best === null) return;
    make(search, { blocks: [best], comesIn, goesOut: null });
    for (const known of fits.values()) known[best.block] = null;
  }
};

/** Steps between two chances for the page to answer. */
const CHUNK = 1000;

function* anneal(search: Search, steps: number, seed: number): Generator<null, void> {
  const random = seeded(seed);
  const cooling = (COLD / HOT) ** (1 / Math.max(1, steps));
  let temperature = HOT;
  let [now, least] = [0, 0];
  let best = search.free.map((songs) => [...songs]);
  for (let step = 0; step < steps; step += 1) {
    if (step % CHUNK === 0) yield null;
    temperature *= cooling;
    const move = randomMove(search, random);
    if (move === null) continue;
    const delta = deltaOf(search, move);
    if (delta > 0 && random() >= Math.exp(-delta / temperature)) continue;
    make(search, move);
    now += delta;
    if (now < least - EPSILON) [least, best] = [now, search.free.map((songs) => [...songs])];
  }
  settle(search, best);
}

const settle = (search: Search, free: readonly (readonly number[])[]): void => {
  const used = new Set(free.flat());
  const songs = [...search.unused, ...search.free.flat()];
  search.unused.splice(
    0,
    search.unused.length,
    ...songs.filter((song) => !used.has(song)).sort((a, b) => a - b),
  );
  free.forEach((block, b) => {
    search.free[b] = [...block];
    search.costs[b] = search.cost(b, block);
  });
};

/** Takes the first move that helps until none does. */
function* descend(search: Search): Generator<null, void> {
  for (;;) {
    yield null;
    let better: Move | null = null;
    for (const move of allMoves(search))
      if (deltaOf(search, move) < -EPSILON) {
        better = move;
        break;
      }
    if (better === null) return;
    make(search, better);
  }
}

/** An answer at once: pinned songs at their places, then what helps most. `from` stays as it is; songs are put in only. */
export const quickOrder = (brief: SetBrief, from: SetOrder = []): SetOrder => quick(compile(brief), from);

/** `quickOrder` for a brief that is numbers already. */
export const quick = (compiled: Compiled, from: SetOrder = []): SetOrder => {
  const search = begin(compiled, from);
  fill(search);
  return orderOf(search, search.free);
};

/** A better answer from `from`, by so many steps of annealing and then descent; never a dearer one. */
export const betterOrder = (brief: SetBrief, from: SetOrder, seed: number, steps = ORDER_STEPS): SetOrder =>
  improve(compile(brief), from, seed, steps);

/** `betterOrder` for a brief that is numbers already. */
export const improve = (compiled: Compiled, from: SetOrder, seed: number, steps: number): SetOrder => {
  let found: SetOrder = from;
  for (const order of improving(compiled, from, seed, steps)) found = order ?? found;
  return found;
};

/** `improve` in small stretches: nothing for each, and the order for the last one. */
export function* improving(
  compiled: Compiled,
  from: SetOrder,
  seed: number,
  steps = ORDER_STEPS,
): Generator<SetOrder | null, void> {
  const search = begin(compiled, from);
  yield* anneal(search, steps, seed);
  yield* descend(search);
  yield orderOf(search, search.free);
}
