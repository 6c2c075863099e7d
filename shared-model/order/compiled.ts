/** A brief as numbers by index, so that a search can cost a block thousands of times a second. */
import { arcAt, RETUNE_SECONDS, type SetBrief } from "./set-facts.ts";
import { HARD_IN_A_ROW, joinTerms, LEADS_IN_A_ROW, minutesOff, ORDER_WEIGHTS } from "./terms.ts";

export interface Compiled {
  readonly brief: SetBrief;
  readonly count: number;
  readonly indexOf: ReadonlyMap<string, number>;
  readonly seconds: Float64Array;
  readonly energy: Float64Array;
  /** What a song is worth as such, below 0. */
  readonly worth: Float64Array;
  readonly opener: Float64Array;
  readonly closer: Float64Array;
  /** A number for each singer; −1 = nobody. */
  readonly lead: Int32Array;
  readonly hard: Uint8Array;
  readonly mustPlay: Uint8Array;
  /** What going from one to another costs, at `from * count + to`. */
  readonly join: Float64Array;
  /** 1 where somebody has to retune in between. */
  readonly retune: Uint8Array;
  /** Energies wanted in a block, by its index and by how many songs it has: its arc at the middle of each song. */
  readonly wanted: readonly (readonly Float64Array[])[];
}

export const compile = (brief: SetBrief): Compiled => {
  const { songs } = brief;
  const count = songs.length;
  const singers = [...new Set(songs.flatMap(({ lead }) => lead ?? []))];
  const indexOf = new Map(songs.map(({ id }, i) => [id, i]));
  const join = new Float64Array(count * count);
  const retune = new Uint8Array(count * count);
  songs.forEach((from, i) => {
    songs.forEach((to, j) => {
      const terms = joinTerms(from, to);
      join[i * count + j] = terms.tempo + terms.floor + terms.key + terms.tuning + terms.rig;
      retune[i * count + j] = from.tuning === to.tuning ? 0 : 1;
    });
  });
  // Of the pairs that stand, which are few, instead of asking it of every two songs.
  const kept = new Set<number>();
  for (const block of brief.standing)
    block.slice(1).forEach((to, i) => {
      const [a, b] = [indexOf.get(block[i] ?? ""), indexOf.get(to)];
      if (a !== undefined && b !== undefined) kept.add(a * count + b);
    });
  for (const pair of kept) join[pair] = (join[pair] as number) - ORDER_WEIGHTS.kept;
  return {
    brief,
    count,
    indexOf,
    seconds: Float64Array.from(songs, (song) => song.seconds),
    energy: Float64Array.from(songs, (song) => song.energy),
    worth: Float64Array.from(songs, (song) => -ORDER_WEIGHTS.value * song.value),
    opener: Float64Array.from(songs, (song) => ORDER_WEIGHTS.opener * (1 - song.opener)),
    closer: Float64Array.from(songs, (song) => ORDER_WEIGHTS.closer * (1 - song.closer)),
    lead: Int32Array.from(songs, ({ lead }) => (lead === null ? -1 : singers.indexOf(lead))),
    hard: Uint8Array.from(songs, (song) => (song.hardToSing && song.lead !== null ? 1 : 0)),
    mustPlay: Uint8Array.from(songs, (song) => (song.mustPlay ? 1 : 0)),
    join,
    retune,
    wanted: brief.blocks.map(({ arc }) =>
      Array.from({ length: count + 1 }, (_, length) =>
        Float64Array.from({ length }, (_, i) => arcAt(arc, (i + 0.5) / length)),
      ),
    ),
  };
};

/** The cost of a block whose songs are given by index; what `blockTerms` sums to. */
export const blockCost = (compiled: Compiled, order: readonly number[], blockIndex: number): number => {
  const { brief, count, energy, worth, join, lead, hard, retune, seconds } = compiled;
  const block = brief.blocks[blockIndex];
  const length = order.length;
  const wanted = compiled.wanted[blockIndex]?.[length];
  if (block === undefined || wanted === undefined) return 0;
  let cost = 0;
  let time = brief.talkSeconds + brief.gapSeconds * Math.max(0, length - 1);
  let [hardRun, leadRun] = [0, 0];
  let before = -1;
  for (let i = 0; i < length; i += 1) {
    const song = order[i] as number;
    const off = (energy[song] as number) - (wanted[i] as number);
    cost += ORDER_WEIGHTS.arc * off * off + (worth[song] as number);
    time += seconds[song] as number;
    const singer = lead[song] as number;
    const same = before >= 0 && singer >= 0 && singer === lead[before];
    leadRun = singer < 0 ? 0 : same ? leadRun + 1 : 1;
    hardRun = hard[song] === 0 ? 0 : same ? hardRun + 1 : 1;
    if (leadRun > LEADS_IN_A_ROW) cost += ORDER_WEIGHTS.leads;
    if (hardRun > HARD_IN_A_ROW) cost += ORDER_WEIGHTS.voice;
    if (before >= 0) {
      cost += join[before * count + song] as number;
      time += RETUNE_SECONDS * (retune[before * count + song] as number);
    }
    before = song;
  }
  const [first, last] = [order[0], order[length - 1]];
  cost += first === undefined ? ORDER_WEIGHTS.opener : (compiled.opener[first] as number);
  cost += last === undefined ? ORDER_WEIGHTS.closer : (compiled.closer[last] as number);
  return cost + ORDER_WEIGHTS.minutes * minutesOff(time, block);
};
