/** What was found, in a few words. */
import { formatLength } from "../../music/duration.ts";
import { keyWithSignature, parseKey, showKey } from "../../music/key.ts";
import { noteName } from "../../music/note-name.ts";
import type { ScoreSection } from "./section-facts.ts";
import type { FormSource, SongFacts } from "./song-facts.ts";

const SOURCES: { readonly [S in FormSource]: string } = {
  marks: "from the marks in the file",
  repeats: "from its repeats",
  changes: "the file names no sections, so this is a guess from who comes in and goes out",
  nothing: "the file names no sections",
};

/** A key that fewer of the notes belong to is doubted; common practice, no published source. */
const DOUBTED = 0.8;

/** `96 beats a minute · D · 4/4 · 1:00`; what the file does not say is said to be missing. */
export const songWords = ({ tempo, tempoRange, key, keyFits, metre, length }: SongFacts): string => {
  const read = parseKey(key);
  return [
    tempo === null
      ? "no tempo in the file"
      : `${tempo} beats a minute${tempoRange === null ? "" : ` (it moves from ${tempoRange[0]} to ${tempoRange[1]})`}`,
    !read.ok
      ? "no key in the file"
      : keyFits !== null && keyFits < DOUBTED
        ? `${showKey(read.value)} (check it: ${Math.round(keyFits * 100)} % of the notes lie in that key)`
        : showKey(read.value),
    metre,
    ...(length === null ? [] : [formatLength(length)]),
  ].join(" · ");
};

/** What a section has of its own, in the order of the board: `6/8, 80 beats a minute, to E`; empty = nothing. */
const ownWords = (section: ScoreSection, song: SongFacts): string => {
  const { metre, tempo } = section;
  const key = parseKey(section.key);
  return [
    metre === song.metre ? "" : metre,
    tempo === null ? "" : `${tempo} beats a minute`,
    key.ok ? `${section === song.form[0] ? "in" : "to"} ${showKey(key.value)}` : "",
  ]
    .filter((words) => words !== "")
    .join(", ");
};

/**
 * `Intro 4 · Verse 8 (6/8, to E): from the marks in the file`. `withOwn`: sections say the metre, tempo and key that they
 * have of their own.
 */
export const formWords = (song: SongFacts, withOwn: boolean): string => {
  const sections = song.form.map((section) => {
    const own = withOwn ? ownWords(section, song) : "";
    return `${section.name} ${section.bars}${own === "" ? "" : ` (${own})`}`;
  });
  return `${sections.join(" · ")}: ${SOURCES[song.formSource]}`;
};

/** What happens half-way through a section and is not kept, a line each; none where every section keeps to itself. */
export const unkeptWords = ({ form }: SongFacts): readonly string[] =>
  form.flatMap(({ name, within }) => (within.length === 0 ? [] : [`${name}: ${within.join(", ")}.`]));

/** `D4 to B4`, spelled in the song's key; C4 is middle C. */
export const rangeWords = ([low, high]: readonly [low: number, high: number], key: string): string => {
  const read = parseKey(key);
  const spelling = read.ok ? read.value : keyWithSignature(0, "major");
  return low === high ? noteName(low, spelling) : `${noteName(low, spelling)} to ${noteName(high, spelling)}`;
};
