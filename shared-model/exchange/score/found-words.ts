/** What was found, in a few words. */
import { formatLength } from "../../music/duration.ts";
import { keyWithSignature, parseKey, showKey } from "../../music/key.ts";
import { noteName } from "../../music/note-name.ts";
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

/** `Intro 4 · Verse 8, from the marks in the file`; sections in another metre say theirs. */
export const formWords = ({ form, formSource, metre }: SongFacts): string => {
  const sections = form.map(
    (section) => `${section.name} ${section.bars}${section.metre === metre ? "" : ` (${section.metre})`}`,
  );
  return `${sections.join(" · ")}: ${SOURCES[formSource]}`;
};

/** `D4 to B4`, spelled in the song's key; C4 is middle C. */
export const rangeWords = ([low, high]: readonly [low: number, high: number], key: string): string => {
  const read = parseKey(key);
  const spelling = read.ok ? read.value : keyWithSignature(0, "major");
  return low === high ? noteName(low, spelling) : `${noteName(low, spelling)} to ${noteName(high, spelling)}`;
};
