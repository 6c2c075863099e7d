/**
 * What a section of a score has of its own. A section of the board has one metre, one tempo and one key, so what holds for
 * the longest counts, and what else happens within it is told.
 */
import type { ScoreFacts } from "./score-facts.ts";
import { isOwnTempo, keysIn, longest, metresIn, tempoOf } from "./stretch-facts.ts";

/** A part of the form as it was found in a score. */
export interface ScoreSection {
  readonly name: string;
  /** First bar of the score, from 0. */
  readonly from: number;
  readonly bars: number;
  readonly metre: string;
  /** Counted beats of its metre a minute, where that is another number than the song's; null = the song's. */
  readonly tempo: number | null;
  /** The key from here on, where it changes; empty = as before, in the first section the song's. */
  readonly key: string;
  /** What changes in the middle of it, in words, and cannot be kept; empty = nothing does. */
  readonly within: readonly string[];
}

/** Where a section begins, and what it is called. */
export interface NamedStart {
  readonly bar: number;
  readonly name: string;
}

/** The song that the sections are compared with. */
export interface SongUsual {
  readonly metre: string;
  readonly tempo: number | null;
  readonly key: string;
}

/** The sections that begin at `starts`, ascending. `facts` has at least one bar. */
export const sectionsOf = (
  facts: ScoreFacts,
  starts: readonly NamedStart[],
  song: SongUsual,
): readonly ScoreSection[] => {
  let keyBefore = song.key;
  return starts.map(({ bar, name }, i) => {
    const until = starts[i + 1]?.bar ?? facts.bars.length;
    const span = { from: bar, until };
    const metres = metresIn(facts, span);
    const metre = longest(metres) ?? song.metre;
    const tempo = tempoOf(facts, span, metre);
    const keys = keysIn(facts, span);
    const key = longest(keys) ?? keyBefore;
    const others = new Set(metres.map(([one]) => one).filter((one) => one !== metre));
    const section = {
      name,
      from: bar,
      bars: until - bar,
      metre,
      tempo: isOwnTempo(tempo, song.tempo) ? tempo.tempo : null,
      key: key === keyBefore ? "" : key,
      within: [
        ...[...others].map((other) => `some of it is in ${other}`),
        ...(tempo.range === null ? [] : [`its tempo moves from ${tempo.range[0]} to ${tempo.range[1]}`]),
        ...(keys.some(([one]) => one !== key) ? ["its key changes half-way"] : []),
      ],
    };
    keyBefore = key;
    return section;
  });
};
