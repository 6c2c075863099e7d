/** What a score says of a stretch of its bars, a section or the whole song: metre, tempo, key, and what changes within it. */
import { formatKey, keyWithSignature } from "../../music/key.ts";
import { beatsPerBar, parseMetre } from "../../music/metre.ts";
import { quartersIn, type ScoreFacts } from "./score-facts.ts";

/** The value that holds for the longest, by weight; the earlier of two equal ones. */
export const longest = <T>(found: readonly (readonly [value: T, weight: number])[]): T | null => {
  const sums = new Map<T, number>();
  for (const [value, weight] of found) sums.set(value, (sums.get(value) ?? 0) + weight);
  let best: T | null = null;
  let most = 0;
  for (const [value, sum] of sums) if (sum > most + 1e-9) [best, most] = [value, sum];
  return best;
};

/** Counted beats in a quarter note of a metre: 1 in 4/4, two thirds in 6/8. */
export const beatsInQuarter = (metre: string): number => {
  const read = parseMetre(metre);
  if (!read.ok) return 1;
  const units = read.value.groups.reduce((sum, n) => sum + n, 0);
  return beatsPerBar(read.value) / quartersIn(units, read.value.unit);
};

/** Bars of a score, counted from 0; `until` is the first bar behind them. */
export interface BarSpan {
  readonly from: number;
  readonly until: number;
}

/** Quarter notes from the beginning of the song to the beginning of a bar; behind the last bar, to its end. */
const placeOf = ({ bars }: ScoreFacts, bar: number): number => {
  const last = bars.at(-1);
  return bars[bar]?.start ?? (last === undefined ? 0 : last.start + last.length);
};

const TEMPO_LEAST = 20;
const TEMPO_MOST = 400;
/** A tempo that holds for this share of a stretch is its tempo; else the mean of all. */
const HOLDS = 0.6;
const STEADY = 1.03;
/** A change this near (quarter notes) to the end of a stretch belongs to what comes next, or came before. */
const EDGE = 1 / 16;

export interface StretchTempo {
  /** Counted beats a minute, whole; null = not said, or too slow or fast to be a tempo. */
  readonly tempo: number | null;
  /** Slowest and fastest of the counted beat, where they lie more than 3 % apart; null = it keeps one tempo. */
  readonly range: readonly [low: number, high: number] | null;
  /** True when one tempo holds through most of it; false = `tempo` is the mean of a tempo that wanders. */
  readonly held: boolean;
  readonly minutes: number;
}

/** The tempo of a stretch, in beats of `metre`. */
export const tempoOf = (facts: ScoreFacts, span: BarSpan, metre: string): StretchTempo => {
  const [begin, end] = [placeOf(facts, span.from), placeOf(facts, span.until)];
  const stretches = facts.tempos
    .map(({ at, quarters }, i) => ({
      quarters,
      begins: Math.max(begin, at),
      ends: Math.min(end, facts.tempos[i + 1]?.at ?? end),
    }))
    .map((one) => ({ ...one, length: one.ends - one.begins }))
    .filter(({ length }) => length > 1e-9);
  if (stretches.length === 0) return { tempo: null, range: null, held: false, minutes: 0 };
  const beats = beatsInQuarter(metre);
  const rounded = stretches.map(({ quarters, length }) => [Math.round(quarters * beats), length] as const);
  const all = stretches.reduce((sum, { length }) => sum + length, 0);
  const minutes = stretches.reduce((sum, { quarters, length }) => sum + length / quarters, 0);
  const usual = longest(rounded) ?? 0;
  const share = rounded.reduce((sum, [tempo, length]) => sum + (tempo === usual ? length : 0), 0) / all;
  const held = share >= HOLDS;
  const tempo = held ? usual : Math.round((all / minutes) * beats);
  const inside = rounded.filter((_, i) => {
    const { begins = 0, ends = 0 } = stretches[i] ?? {};
    return rounded.length === 1 || (ends > begin + EDGE && begins < end - EDGE);
  });
  const low = Math.min(...inside.map(([value]) => value));
  const high = Math.max(...inside.map(([value]) => value));
  return {
    tempo: tempo >= TEMPO_LEAST && tempo <= TEMPO_MOST ? tempo : null,
    range: high > low * STEADY ? [low, high] : null,
    held,
    minutes,
  };
};

/** True where a tempo is another one than the song's: by a whole beat where it is held, by more than 3 % where it wanders. */
export const isOwnTempo = ({ tempo, held }: StretchTempo, song: number | null): boolean => {
  if (tempo === null || song === null) return tempo !== null;
  return held ? tempo !== song : Math.max(tempo, song) > Math.min(tempo, song) * STEADY;
};

/** Metres of a stretch by how long each lasts (quarter notes). */
export const metresIn = ({ bars }: ScoreFacts, { from, until }: BarSpan) =>
  bars.slice(from, until).map(({ metre, length }) => [metre, length] as const);

/** Keys of a stretch by how many bars each lasts; none where no key is said. */
export const keysIn = ({ keys, bars }: ScoreFacts, { from, until }: BarSpan) =>
  keys.flatMap(({ bar, signature, mode }, i) => {
    const length = Math.min(until, keys[i + 1]?.bar ?? bars.length) - Math.max(from, bar);
    return length > 0 ? [[formatKey(keyWithSignature(signature, mode)), length] as const] : [];
  });
