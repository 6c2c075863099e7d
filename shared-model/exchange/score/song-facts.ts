/** What a score says of the song as a whole: its tempo, metre, key, length and form. */
import { noveltyOf } from "../../music/texture.ts";
import type { ScoreFacts } from "./score-facts.ts";
import { type NamedStart, type ScoreSection, sectionsOf } from "./section-facts.ts";
import { keysIn, longest, metresIn, tempoOf } from "./stretch-facts.ts";

/** Where a form comes from. */
export type FormSource = "marks" | "repeats" | "changes" | "nothing";

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

const LENGTH_MOST = 3600;

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

const startsOf = (facts: ScoreFacts, first: number): readonly [FormSource, readonly NamedStart[]] => {
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
  const whole = { from: 0, until: bars.length };
  const metre = longest(metresIn(facts, whole)) ?? "4/4";
  const { tempo, range, minutes } = tempoOf(facts, whole, metre);
  const key = longest(keysIn(facts, whole)) ?? "";
  const seconds = Math.round(minutes * 60);
  const [formSource, starts] = startsOf(facts, first);
  const names = numbered(starts.map(({ name }) => name));
  return {
    title: facts.title,
    tempo,
    tempoRange: range,
    metre,
    key,
    keyFits: keyFitsOf(facts),
    length: seconds >= 1 && seconds <= LENGTH_MOST ? seconds : null,
    form: sectionsOf(
      facts,
      starts.map(({ bar }, i) => ({ bar, name: names[i] ?? "" })),
      { metre, tempo, key },
    ),
    formSource,
  };
};
