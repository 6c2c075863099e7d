/** All that was found in a score, and what it comes to once parts belong to chairs. */
import type { Instrument } from "../../board/band.ts";
import type { Id } from "../../board/ids.ts";
import type { TextureChanges } from "../../board/texture.ts";
import type { SungTimes } from "../../board/voice.ts";
import { playedWords } from "../../selectors/texture-words.ts";
import { densityOf, instrumentOf, presenceOf, rangeOf, timeOnNotes } from "./part-facts.ts";
import { byBar, crashesOf, type Pattern, patternOf } from "./pattern-facts.ts";
import type { ScoreFacts, ScorePart } from "./score-facts.ts";
import type { ScoreSection } from "./section-facts.ts";
import { numbered, type SongFacts, songFacts } from "./song-facts.ts";

export interface FoundPart {
  /** As the file has it, or what plays it; never empty, and no other part has it. */
  readonly name: string;
  readonly instrument: Instrument;
  readonly percussion: boolean;
  readonly range: readonly [low: number, high: number] | null;
  readonly notes: number;
}

export interface FoundSong {
  readonly facts: ScoreFacts;
  readonly song: SongFacts;
  readonly parts: readonly FoundPart[];
  /** Crash cymbals in each section. */
  readonly crashes: readonly number[];
}

/** Looks through a score. */
export const findInScore = (facts: ScoreFacts): FoundSong => {
  const song = songFacts(facts);
  const instruments = facts.parts.map(instrumentOf);
  const names = numbered(
    facts.parts.map(({ name }, i) => {
      const instrument = instruments[i] ?? "other";
      return name || instrument.slice(0, 1).toUpperCase() + instrument.slice(1);
    }),
  );
  return {
    facts,
    song,
    parts: facts.parts.map((part, i) => ({
      name: names[i] ?? "",
      instrument: instruments[i] ?? "other",
      percussion: part.percussion,
      range: rangeOf(part),
      notes: part.notes.length,
    })),
    crashes: crashesOf(song.form, facts.parts),
  };
};

/** A chair with everything that was given to it, in the order in which it is played. */
export interface PlayedChair {
  readonly chair: Id;
  readonly part: ScorePart;
}

/** `chairs`: for each part of the score its chair; null = it is left out. */
export const playedChairs = (facts: ScoreFacts, chairs: readonly (Id | null)[]): readonly PlayedChair[] => {
  const given = [...new Set(chairs.filter((chair) => chair !== null))];
  return given.map((chair) => {
    const parts = facts.parts.filter((_, i) => chairs[i] === chair);
    const [first, ...others] = parts as [ScorePart, ...ScorePart[]];
    if (others.length === 0) return { chair, part: first };
    const notes = parts.flatMap((part) => part.notes).sort((a, b) => a.bar - b.bar || a.beat - b.beat);
    return { chair, part: { ...first, percussion: parts.every(({ percussion }) => percussion), notes } };
  });
};

/** How a chair plays in each section. */
export const presenceIn = ({ facts, song }: FoundSong, { part }: PlayedChair): readonly TextureChanges[] =>
  presenceOf(song.form, densityOf(facts, part.notes));

/** The bar that comes back in each section; null where none does. */
export const patternsIn = (
  { facts, song }: FoundSong,
  { part }: PlayedChair,
): readonly (Pattern | null)[] => {
  const bars = byBar(facts, part.notes);
  return song.form.map((section) => patternOf(facts, section, bars, part.percussion));
};

/** How long each note is sung; null where nothing is. */
export const sungIn = ({ part }: PlayedChair): SungTimes | null => {
  const histogram = timeOnNotes(part)
    .map(([pitch, time]) => [pitch, Math.round(time * 100) / 100] as const)
    .filter(([, time]) => time > 0);
  return part.percussion || histogram.length === 0 ? null : { histogram };
};

/** How a chair plays, sections that are alike together: `plays full in Verse, Chorus; rests in Intro`. */
export const presenceWords = (form: readonly ScoreSection[], presence: readonly TextureChanges[]): string => {
  const alike = new Map<string, string[]>();
  for (const [i, { name, bars }] of form.entries()) {
    const words = playedWords(presence[i] ?? [], bars);
    alike.set(words, [...(alike.get(words) ?? []), name]);
  }
  return [...alike].map(([words, names]) => `${words} in ${names.join(", ")}`).join("; ");
};
