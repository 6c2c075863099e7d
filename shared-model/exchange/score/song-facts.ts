/** What a score says of the song as a whole: its tempo, metre, key, length and form. */
import { formatKey, keyWithSignature } from "../../music/key.ts";
import { beatsPerBar, parseMetre } from "../../music/metre.ts";
import { noveltyOf } from "../../music/texture.ts";
import { quartersIn, type ScoreFacts } from "./score-facts.ts";

/** Where a form comes from. */
export type FormSource = "marks" | "repeats" | "changes" | "nothing";

export interface ScoreSection {
  readonly name: string;
  /** First bar of the score, from 0. */
  readonly from: number;
  readonly bars: number;
  readonly metre: string;
}

export interface SongFacts {
  readonly title: string;
  /** Counted beats a minute, whole; null = not said, or too slow or fast to be a tempo. */
  readonly tempo: number | null;
  /** Slowest and fastest of the counted beat, where they lie more than 3 % apart; null = it keeps one tempo. */
  readonly tempoRange: readonly [low: number, high: number] | null;
  readonly metre: string;
  /** Empty = not said. */
  readonly key: string;
  /** Share of the notes' time that lies in the key's scale, 0 to 1; null without a key or notes. */
  readonly keyFits: number | null;
  /** Seconds, whole; null without a tempo. */
  readonly length: number | null;
  readonly form: readonly ScoreSection[];
  readonly formSource: FormSource;
}

/** The value that holds for the longest, by weight; the earlier of two equal ones. */
const longest = <T>(found: readonly (readonly [value: T, weight: number])[]): T | null => {
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

const endOf = ({ bars }: ScoreFacts): number => {
  const last = bars.at(-1);
  return last === undefined ? 0 : last.start + last.length;
};

/** Stretches of one tempo: quarters a minute and how many quarter notes it holds. */
const stretchesOf = (facts: ScoreFacts) => {
  const end = endOf(facts);
  return facts.tempos
    .map(({ at, quarters }, i) => ({ quarters, length: (facts.tempos[i + 1]?.at ?? end) - at }))
    .filter(({ length }) => length > 0);
};

const TEMPO_LEAST = 20;
const TEMPO_MOST = 400;
const LENGTH_MOST = 3600;
/** A tempo that holds for this share of the song is its tempo; else the mean of all. */
const HOLDS = 0.6;
const STEADY = 1.03;

const tempoOf = (facts: ScoreFacts, metre: string): Pick<SongFacts, "tempo" | "tempoRange" | "length"> => {
  const stretches = stretchesOf(facts);
  if (stretches.length === 0) return { tempo: null, tempoRange: null, length: null };
  const beats = beatsInQuarter(metre);
  const rounded = stretches.map(({ quarters, length }) => [Math.round(quarters * beats), length] as const);
  const all = stretches.reduce((sum, { length }) => sum + length, 0);
  const minutes = stretches.reduce((sum, { quarters, length }) => sum + length / quarters, 0);
  const usual = longest(rounded) ?? 0;
  const share = rounded.reduce((sum, [tempo, length]) => sum + (tempo === usual ? length : 0), 0) / all;
  const tempo = share >= HOLDS ? usual : Math.round((all / minutes) * beats);
  const low = Math.min(...rounded.map(([value]) => value));
  const high = Math.max(...rounded.map(([value]) => value));
  const seconds = Math.round(minutes * 60);
  return {
    tempo: tempo >= TEMPO_LEAST && tempo <= TEMPO_MOST ? tempo : null,
    tempoRange: high > low * STEADY ? [low, high] : null,
    length: seconds >= 1 && seconds <= LENGTH_MOST ? seconds : null,
  };
};

const keyOf = (facts: ScoreFacts): string => {
  const { keys, bars } = facts;
  return (
    longest(
      keys.map(({ bar, signature, mode }, i) => [
        formatKey(keyWithSignature(signature, mode)),
        (keys[i + 1]?.bar ?? bars.length) - bar,
      ]),
    ) ?? ""
  );
};

/** Semitones of a major scale above its tonic; a minor key has the scale of its signature. */
const SCALE: readonly number[] = [0, 2, 4, 5, 7, 9, 11];

/** Many programs write C major when nobody chose a key, so the notes are asked as well. */
const keyFitsOf = ({ parts, bars, keys }: ScoreFacts): number | null => {
  let [inside, all] = [0, 0];
  const tonics = bars.map((_, bar) => {
    const key = keys.findLast((one) => one.bar <= bar);
    return key === undefined ? null : (((7 * key.signature) % 12) + 12) % 12;
  });
  for (const { notes, percussion } of parts)
    for (const { bar, pitch, length } of percussion ? [] : notes) {
      const tonic = tonics[bar] ?? null;
      if (tonic === null) continue;
      all += length;
      if (SCALE.includes((pitch - tonic + 12) % 12)) inside += length;
    }
  return all === 0 ? null : inside / all;
};

/** Sections of one song at most, as everywhere. */
const SECTIONS_MAX = 100;
/** Least novelty (0 to 1) at which a section may begin, and least bars between two. */
const NEW = 0.2;
const APART = 4;

/** Levels of each part in each bar: whether it sounds, as a share of the bar. */
const soundingOf = ({ parts, bars }: ScoreFacts): readonly (readonly number[])[] => {
  const levels = bars.map(() => parts.map(() => 0));
  for (const [i, { notes }] of parts.entries())
    for (const { bar } of notes) {
      const row = levels[bar];
      if (row) row[i] = 1;
    }
  return levels;
};

/** Bars at which it gets audibly different who plays, nowhere closer than four bars. */
const changesOf = (facts: ScoreFacts, first: number): readonly number[] => {
  const novelty = noveltyOf(
    facts.parts.map(() => 1),
    soundingOf(facts),
  );
  const peaks = novelty
    .map((value, bar) => ({ value, bar }))
    .filter(({ value, bar }) => value >= NEW && bar >= first + APART && facts.bars.length - bar >= APART)
    .sort((a, b) => b.value - a.value || a.bar - b.bar);
  const chosen: number[] = [];
  for (const { bar } of peaks) if (chosen.every((other) => Math.abs(other - bar) >= APART)) chosen.push(bar);
  return chosen.sort((a, b) => a - b);
};

/** A, B … Z, A2, B2 … */
const letter = (n: number): string =>
  String.fromCharCode(65 + (n % 26)) + (n < 26 ? "" : Math.floor(n / 26) + 1);

interface Start {
  readonly bar: number;
  readonly name: string;
}

const startsOf = (facts: ScoreFacts, first: number): readonly [FormSource, readonly Start[]] => {
  const marks = facts.marks.map(({ bar, name }) => ({ bar: Math.max(bar, first), name }));
  const one = [...new Map(marks.map((mark) => [mark.bar, mark])).values()];
  if (one.length > 0 && one.length < SECTIONS_MAX)
    return ["marks", one[0]?.bar === first ? one : [{ bar: first, name: "Intro" }, ...one]];
  const joints = facts.joints.filter((bar) => bar > first);
  const found: readonly [FormSource, readonly number[]] =
    joints.length > 0 && joints.length < SECTIONS_MAX
      ? ["repeats", joints]
      : ["changes", changesOf(facts, first)];
  const bars = [first, ...found[1]];
  if (bars.length === 1) return ["nothing", [{ bar: first, name: "Song" }]];
  // What is played again keeps its letter.
  const letters = new Map<number, string>();
  const named = bars.map((bar) => {
    const written = facts.bars[bar]?.written ?? bar;
    const name = letters.get(written) ?? letter(letters.size);
    letters.set(written, name);
    return { bar, name };
  });
  return [found[0], named];
};

/** Names that come again are numbered, so that each can be said: `Verse`, `Verse (2)`. */
export const numbered = (names: readonly string[]): readonly string[] => {
  const taken = new Set(names);
  const seen = new Map<string, number>();
  return names.map((name) => {
    let times = (seen.get(name) ?? 0) + 1;
    while (times > 1 && taken.has(`${name} (${times})`)) times += 1;
    seen.set(name, times);
    return times === 1 ? name : `${name} (${times})`;
  });
};

/** Reads the song as a whole. `facts` has at least one bar. */
export const songFacts = (facts: ScoreFacts): SongFacts => {
  const { bars } = facts;
  const first = bars[0]?.pickup && bars.length > 1 ? 1 : 0;
  const metre = longest(bars.map((bar) => [bar.metre, bar.length])) ?? "4/4";
  const [formSource, starts] = startsOf(facts, first);
  const names = numbered(starts.map(({ name }) => name));
  return {
    title: facts.title,
    ...tempoOf(facts, metre),
    metre,
    key: keyOf(facts),
    keyFits: keyFitsOf(facts),
    form: starts.map(({ bar }, i) => {
      const until = starts[i + 1]?.bar ?? bars.length;
      const own = bars.slice(bar, until).map((one) => [one.metre, one.length] as const);
      return { name: names[i] ?? "", from: bar, bars: until - bar, metre: longest(own) ?? metre };
    }),
    formSource,
  };
};
