/**
 * A repertoire pasted as text: one title per line, or a table with commas, semicolons or tabs.
 * Governing rule: whatever can be read is read; everything else is named with its line, column and remedy.
 */
import { foldText } from "../lib/fold-text.ts";
import type { Result } from "../lib/result.ts";
import { parseLength } from "../music/duration.ts";
import { formatKey, parseKey } from "../music/key.ts";
import { parseTempo } from "../music/tempo.ts";
import {
  cleanLine,
  cleanLines,
  isNumbered,
  isWrongEncoding,
  type Markers,
  withoutMark,
  withoutMarker,
} from "./clean-text.ts";
import { type CsvRecord, unguard } from "./csv.ts";
import { FURTHER, FURTHER_COLUMNS, FURTHER_NAMES, type FurtherFacts } from "./further-columns.ts";
import { excerpt, type Problem, type ProblemKind, problemAt } from "./problem.ts";
import { findLayout, type MainColumn, type SongColumn, type SongLayout } from "./song-layout.ts";

/** One song of the list. What is missing or could not be read is empty or null. */
export interface ReadSong {
  /** Number of the line it was read from, from 1. */
  readonly line: number;
  readonly title: string;
  /** Spelled as it is stored, e.g. `F#m`; empty = not given. */
  readonly key: string;
  readonly tempo: number | null;
  /** Seconds. */
  readonly length: number | null;
  /** What else the list says of it; absent = nothing. */
  readonly further?: FurtherFacts;
  /** The list or the band has this title already; a `duplicate` problem of the same line says where. */
  readonly duplicate: boolean;
}

export interface SongList {
  readonly songs: readonly ReadSong[];
  /** In the order of their lines. */
  readonly problems: readonly Problem[];
}

/** Longest title, in characters. */
export const TITLE_MAX = 200;
/** Most songs read at a time. */
export const SONGS_MAX = 500;
/** Longest text read, in characters. */
export const LIST_MAX = 250_000;

/** Reads a pasted list. `known` are titles the band has; case and accents make no difference. */
export const readSongList = (text: string, known: Iterable<string> = []): SongList => {
  const refusal = refuseWhole(text);
  if (refusal) return { songs: [], problems: [refusal] };
  const layout = findLayout(withoutMark(text));
  const problems: Problem[] = [...headerProblems(layout)];
  const songs: ReadSong[] = [];
  if (layout.columns.includes("title")) {
    const markers = markersOf(layout);
    for (const record of layout.records) {
      const song = readSong(record, layout, markers, problems);
      if (song) songs.push(song);
    }
  }
  if (songs.length === 0 && problems.length === 0) problems.push(EMPTY);
  return finish(songs, problems, known);
};

const EMPTY = problemAt("empty", 1, null, "there is no song here yet. Write or paste one title per line.");

const refuseWhole = (text: string): Problem | null => {
  if (text.length > LIST_MAX) {
    return problemAt(
      "too many",
      1,
      null,
      `the text is longer than ${LIST_MAX} characters. Paste it in parts.`,
    );
  }
  if (isWrongEncoding(text)) {
    return problemAt(
      "characters",
      1,
      null,
      "this is not plain text. Save the table as CSV in UTF-8 and try again.",
    );
  }
  return withoutMark(text).trim() === "" ? EMPTY : null;
};

const headerProblems = ({ header, columns, records, leftOut }: SongLayout): readonly Problem[] => {
  const line = header?.line ?? records[0]?.line ?? 1;
  const what =
    "this column is left out: the list takes title, key, tempo, length and the columns of a saved repertoire, each once.";
  const ignored = leftOut.map((name) => problemAt("ignored", line, excerpt(name), what));
  if (columns.includes("title")) return ignored;
  const untitled = "no column is called title, so no song has a name. Call one of them Title.";
  return [problemAt("columns", line, null, untitled), ...ignored];
};

/** Bullets and numbers are taken off lists only; the cells of a table with a header are as they should be. */
const markersOf = ({ header, records, columns }: SongLayout): Markers => {
  if (header && header.cells.length > 1) return "none";
  const titles = columns.indexOf("title");
  const numbered = records.filter((record) => isNumbered(record.cells[titles] ?? ""));
  // Numbers belong to the list, not to the titles, when at least half of the lines have one.
  return numbered.length * 2 >= records.length ? "bullets and numbers" : "bullets";
};

const readSong = (
  record: CsvRecord,
  layout: SongLayout,
  markers: Markers,
  problems: Problem[],
): ReadSong | null => {
  const { line } = record;
  if (record.broken) {
    problems.push(problemAt("quote", line, null, QUOTE_ADVICE[record.broken]));
    return null;
  }
  const cell = (column: SongColumn): string => {
    const { text, strange } = cleanLine(record.cells[layout.columns.indexOf(column)] ?? "");
    if (strange) problems.push(problemAt("characters", line, column, STRANGE_ADVICE));
    return text;
  };
  const value = <T>(column: MainColumn & ProblemKind, read: (text: string) => Result<T>): T | null => {
    const text = cell(column);
    if (text === "" || NOTHING.test(text)) return null;
    const result = read(text);
    if (result.ok) return result.value;
    problems.push(problemAt(column, line, column, result.error));
    return null;
  };
  if (record.cells.every((text) => text.trim() === "")) return null;
  problems.push(...extraCells(record, layout));
  const title = readTitle(unguard(withoutMarker(cell("title"), markers)), line, problems);
  const key = value("key", parseKey);
  const song = {
    key: key ? formatKey(key) : "",
    tempo: value("tempo", parseTempo),
    length: value("length", parseLength),
  };
  const further = readFurther(record, layout, problems);
  if (title === null) return null;
  return { line, title, ...song, ...(further === null ? {} : { further }), duplicate: false };
};

/** Null where the list says nothing else. Notes keep their lines, everything else is one. */
const readFurther = (record: CsvRecord, layout: SongLayout, problems: Problem[]): FurtherFacts | null => {
  const facts: [string, unknown][] = [];
  for (const column of FURTHER_COLUMNS) {
    const raw = unguard(record.cells[layout.columns.indexOf(column)] ?? "");
    const { text, strange } = column === "notes" ? cleanLines(raw) : cleanLine(raw);
    if (strange) problems.push(problemAt("characters", record.line, FURTHER_NAMES[column], STRANGE_ADVICE));
    if (text === "") continue;
    const read = FURTHER[column](text);
    if (read.ok) facts.push([column, read.value]);
    else problems.push(problemAt("further", record.line, FURTHER_NAMES[column], read.error));
  }
  return facts.length === 0 ? null : Object.fromEntries(facts);
};

const QUOTE_ADVICE = {
  unclosed: "a quotation mark is opened and never closed. Close it or take it out.",
  "text after quote":
    "there is text after a closing quotation mark. Write a quotation mark inside a cell twice.",
} as const;
const STRANGE_ADVICE =
  "characters that are no letters were taken out. Check the spelling, or save the list as UTF-8.";
/** Signs people put into a table for "not known". */
const NOTHING = /^(?:[-–—?]+|n\/?a)$/i;

const readTitle = (title: string, line: number, problems: Problem[]): string | null => {
  if (title === "") {
    problems.push(problemAt("title", line, "title", "the title is missing. Write one or take the line out."));
    return null;
  }
  if (title.length <= TITLE_MAX) return title;
  const what = `"${excerpt(title)}" has ${title.length} characters. Shorten the title to at most ${TITLE_MAX}.`;
  problems.push(problemAt("title", line, "title", what));
  return null;
};

const extraCells = ({ line, cells }: CsvRecord, { header, columns }: SongLayout): readonly Problem[] => {
  const extra = header ? cells.slice(columns.length).filter((text) => text.trim() !== "") : [];
  if (extra.length === 0) return [];
  const what = `there are ${cells.length} cells for ${columns.length} columns. Put a title with a comma in quotation marks.`;
  return [problemAt("columns", line, null, what)];
};

const finish = (songs: readonly ReadSong[], problems: Problem[], known: Iterable<string>): SongList => {
  const first = new Map<string, string>();
  for (const title of known) first.set(foldText(title), "the band already has it");
  const marked = songs.slice(0, SONGS_MAX).map((song) => {
    const name = foldText(song.title);
    const where = first.get(name);
    if (where === undefined) {
      first.set(name, `line ${song.line} has it too`);
      return song;
    }
    const what = `"${excerpt(song.title)}" comes twice: ${where}. Keep both or skip this one.`;
    problems.push(problemAt("duplicate", song.line, "title", what));
    return { ...song, duplicate: true };
  });
  const rest = songs[SONGS_MAX];
  if (rest) {
    const what = `the list is read up to here, ${SONGS_MAX} songs at a time. Paste the rest afterwards.`;
    problems.push(problemAt("too many", rest.line, null, what));
  }
  return { songs: marked, problems: problems.sort((a, b) => a.line - b.line) };
};
