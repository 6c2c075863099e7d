/** What was understood of a pasted list, line by line, and what is left of it once the songs are in. */
import type { Problem, ProblemKind } from "./problem.ts";
import { findLayout } from "./song-layout.ts";
import type { ReadSong, SongList } from "./song-list.ts";

/** One line of the list: the song read from it, and everything to look at there. */
export interface PreviewLine {
  readonly line: number;
  /** Null = nothing could be read here. */
  readonly song: ReadSong | null;
  readonly problems: readonly Problem[];
}

/** Lines with a song or a problem, in order. */
export const previewLines = ({ songs, problems }: SongList): readonly PreviewLine[] => {
  const lines = new Map<number, { song: ReadSong | null; problems: Problem[] }>();
  const at = (line: number) => {
    const known = lines.get(line) ?? { song: null, problems: [] };
    lines.set(line, known);
    return known;
  };
  for (const song of songs) at(song.line).song = song;
  for (const problem of problems) at(problem.line).problems.push(problem);
  return [...lines].sort(([a], [b]) => a - b).map(([line, rest]) => ({ line, ...rest }));
};

/** Songs to add: those that come twice only where somebody chose to keep them (by line). */
export const songsToAdd = ({ songs }: SongList, kept: ReadonlySet<number>): readonly ReadSong[] =>
  songs.filter((song) => !song.duplicate || kept.has(song.line));

/** Problems that keep a line from becoming a song. */
const KEEPS_OUT: ReadonlySet<ProblemKind> = new Set(["title", "quote"]);

/**
 * What stays to be mended after the songs that could be read are in: the lines without a song, under the list's
 * header where it has one. Empty when nothing is left.
 */
export const unreadLines = (text: string, { songs, problems }: SongList): string => {
  const lines = text.split(/\r\n|\r|\n/);
  const read = new Set(songs.map((song) => song.line));
  const beyond = problems.find(({ kind }) => kind === "too many")?.line ?? Number.POSITIVE_INFINITY;
  const open = new Set(problems.flatMap(({ kind, line }) => (KEEPS_OUT.has(kind) ? [line] : [])));
  const left = lines.filter((_, index) => {
    const line = index + 1;
    return !read.has(line) && (open.has(line) || line >= beyond);
  });
  if (left.length === 0) return "";
  const header = findLayout(text).header;
  return [...(header === null ? [] : [lines[header.line - 1] ?? ""]), ...left].join("\n");
};

/** Where a line stands in a text: [start, end) in characters, for pointing it out. */
export const lineRange = (text: string, line: number): readonly [number, number] => {
  const ends = /\r\n|\r|\n/g;
  let start = 0;
  for (let n = 1; n < line; n++) {
    const end = ends.exec(text);
    if (end === null) break;
    start = end.index + end[0].length;
  }
  const rest = text.slice(start);
  const length = rest.search(/[\r\n]/);
  return [start, start + (length < 0 ? rest.length : length)];
};
