/**
 * The cheapest order of few songs, by dynamic programming over subsets: for every set of songs the cheapest order of it in
 * each block, then the cheapest way to share the songs out. Pins are not looked at.
 */
import { blockCost, type Compiled, compile } from "./compiled.ts";
import { arcAt, RETUNE_SECONDS, type SetBrief, type SetOrder } from "./set-facts.ts";
import { HARD_IN_A_ROW, LEADS_IN_A_ROW, minutesOff, ORDER_WEIGHTS } from "./terms.ts";

/** Songs up to which the exact order is looked for. */
export const EXACT_MOST = 10;

const HARD_STATES = HARD_IN_A_ROW + 1;
const LEAD_STATES = LEADS_IN_A_ROW + 1;

const sizeOf = (set: number): number => {
  let size = 0;
  for (let rest = set; rest > 0; rest &= rest - 1) size += 1;
  return size;
};

/** The table of one block and one number of songs: a state is the set played, its last song, both runs and the retunings. */
interface Table {
  readonly cost: Float64Array;
  /** The state before; −1 = the first song. */
  readonly before: Int32Array;
}

const stateOf = (
  n: number,
  set: number,
  last: number,
  hard: number,
  leads: number,
  retunes: number,
): number => (((set * n + last) * HARD_STATES + hard) * LEAD_STATES + leads) * n + retunes;

const lastOf = (n: number, state: number): number => Math.floor(state / (n * LEAD_STATES * HARD_STATES)) % n;

/** Fills the table for orders of `length` songs out of all. */
const fillTable = (compiled: Compiled, block: number, length: number): Table => {
  const { count: n, lead, hard, energy, worth, join, retune, opener, brief } = compiled;
  const states = (1 << n) * n * HARD_STATES * LEAD_STATES * n;
  const cost = new Float64Array(states).fill(Number.POSITIVE_INFINITY);
  const before = new Int32Array(states).fill(-1);
  const arc = brief.blocks[block]?.arc ?? [0];
  const own = (song: number, place: number): number =>
    ORDER_WEIGHTS.arc * ((energy[song] as number) - arcAt(arc, (place + 0.5) / length)) ** 2 +
    (worth[song] as number);
  for (let song = 0; song < n; song += 1) {
    const leads = (lead[song] as number) < 0 ? 0 : 1;
    const state = stateOf(n, 1 << song, song, hard[song] as number, leads, 0);
    cost[state] = own(song, 0) + (opener[song] as number);
  }
  for (let set = 1; set < 1 << n; set += 1) {
    const place = sizeOf(set);
    if (place >= length) continue;
    for (let last = 0; last < n; last += 1) {
      if ((set & (1 << last)) === 0) continue;
      for (let run = 0; run < HARD_STATES * LEAD_STATES * n; run += 1) {
        const state = (set * n + last) * HARD_STATES * LEAD_STATES * n + run;
        const soFar = cost[state] as number;
        if (soFar === Number.POSITIVE_INFINITY) continue;
        const retunes = run % n;
        const leads = Math.floor(run / n) % LEAD_STATES;
        const hards = Math.floor(run / (n * LEAD_STATES));
        for (let song = 0; song < n; song += 1) {
          if ((set & (1 << song)) !== 0) continue;
          const singer = lead[song] as number;
          const same = singer >= 0 && singer === lead[last];
          const leadRun = singer < 0 ? 0 : same ? leads + 1 : 1;
          const hardRun = hard[song] === 0 ? 0 : same ? hards + 1 : 1;
          const pair = last * n + song;
          const next =
            soFar +
            own(song, place) +
            (join[pair] as number) +
            (leadRun > LEADS_IN_A_ROW ? ORDER_WEIGHTS.leads : 0) +
            (hardRun > HARD_IN_A_ROW ? ORDER_WEIGHTS.voice : 0);
          const there = stateOf(
            n,
            set | (1 << song),
            song,
            Math.min(hardRun, HARD_IN_A_ROW),
            Math.min(leadRun, LEADS_IN_A_ROW),
            retunes + (retune[pair] as number),
          );
          if (next >= (cost[there] as number)) continue;
          cost[there] = next;
          before[there] = state;
        }
      }
    }
  }
  return { cost, before };
};

interface Ending {
  readonly cost: number;
  readonly state: number;
}

/** The cheapest ending of each set of `length` songs. */
const endings = (compiled: Compiled, block: number, length: number, { cost }: Table): Map<number, Ending> => {
  const { count: n, closer, seconds, brief } = compiled;
  const window = brief.blocks[block] ?? { minutes: 0, arc: [0] };
  const found = new Map<number, Ending>();
  for (let set = 1; set < 1 << n; set += 1) {
    if (sizeOf(set) !== length) continue;
    let time = brief.talkSeconds + brief.gapSeconds * (length - 1);
    for (let song = 0; song < n; song += 1) if ((set & (1 << song)) !== 0) time += seconds[song] as number;
    let best: Ending = { cost: Number.POSITIVE_INFINITY, state: -1 };
    for (let run = 0; run < n * HARD_STATES * LEAD_STATES * n; run += 1) {
      const state = set * n * HARD_STATES * LEAD_STATES * n + run;
      if (cost[state] === Number.POSITIVE_INFINITY) continue;
      const last = lastOf(n, state);
      const off = minutesOff(time + RETUNE_SECONDS * (run % n), window);
      const total = (cost[state] as number) + (closer[last] as number) + ORDER_WEIGHTS.minutes * off;
      if (total < best.cost) best = { cost: total, state };
    }
    found.set(set, best);
  }
  return found;
};

/** True where the cheapest order can be found out: few songs, and none that is pinned. */
export const canBeExact = ({ songs, pins }: Pick<SetBrief, "songs" | "pins">): boolean =>
  songs.length <= EXACT_MOST && pins.length === 0;

/** The cheapest order of a brief that `canBeExact`. Throws on more songs. */
export const exactOrder = (brief: SetBrief): SetOrder => {
  let found: SetOrder = [];
  for (const order of orderingExactly(compile(brief))) found = order ?? found;
  return found;
};

/** `exactOrder` in stretches of one table each: nothing for each, and the order for the last one. */
export function* orderingExactly(compiled: Compiled): Generator<SetOrder | null, void> {
  const { brief, count: n, mustPlay } = compiled;
  if (n > EXACT_MOST) throw new Error(`At most ${EXACT_MOST} songs can be ordered exactly, not ${n}.`);
  if (n === 0) {
    yield brief.blocks.map(() => []);
    return;
  }
  const all = (1 << n) - 1;
  const costs: Float64Array[] = [];
  for (const block of brief.blocks.keys()) {
    const of = new Float64Array(1 << n);
    of[0] = blockCost(compiled, [], block);
    for (let length = 1; length <= n; length += 1) {
      yield null;
      for (const [set, ending] of endings(compiled, block, length, fillTable(compiled, block, length)))
        of[set] = ending.cost;
    }
    costs.push(of);
  }
  // By the songs that are used so far: the cheapest cost, and the set that the last block took.
  let best = new Map<number, number>([[0, 0]]);
  const taken: Map<number, number>[] = [];
  for (const of of costs) {
    const next = new Map<number, number>();
    const took = new Map<number, number>();
    for (const [used, soFar] of best) {
      const left = all & ~used;
      for (let set = left; ; set = (set - 1) & left) {
        const cost = soFar + (of[set] as number);
        if (cost < (next.get(used | set) ?? Number.POSITIVE_INFINITY)) {
          next.set(used | set, cost);
          took.set(used | set, set);
        }
        if (set === 0) break;
      }
    }
    best = next;
    taken.push(took);
  }
  const missing = (used: number): number =>
    mustPlay.filter((must, i) => must === 1 && (used & (1 << i)) === 0).length;
  let used = 0;
  let least = Number.POSITIVE_INFINITY;
  for (const [set, cost] of best) {
    const total = cost + ORDER_WEIGHTS.must * missing(set);
    if (total < least) [used, least] = [set, total];
  }
  const order: (readonly string[])[] = [];
  for (let block = brief.blocks.length - 1; block >= 0; block -= 1) {
    const set = taken[block]?.get(used) ?? 0;
    order.unshift(namesOf(compiled, block, set));
    used &= ~set;
  }
  yield order;
}

const namesOf = (compiled: Compiled, block: number, set: number): readonly string[] => {
  const length = sizeOf(set);
  if (length === 0) return [];
  const table = fillTable(compiled, block, length);
  const names: string[] = [];
  let state = endings(compiled, block, length, table).get(set)?.state ?? -1;
  while (state >= 0) {
    names.unshift(compiled.brief.songs[lastOf(compiled.count, state)]?.id ?? "");
    state = table.before[state] as number;
  }
  return names;
};
