import type { Song } from "../board/song.ts";
import { formatLength } from "../music/duration.ts";
import { writeCsv } from "./csv.ts";

const COLUMNS: readonly (readonly [string, (song: Song) => string])[] = [
  ["Title", (song) => song.title],
  ["Key", (song) => song.key],
  ["Tempo", (song) => (song.tempo === null ? "" : String(song.tempo))],
  ["Length", (song) => (song.length === null ? "" : formatLength(song.length))],
  ["Stage", (song) => song.stage],
  ["Metre", (song) => song.metre],
  ["Style", (song) => song.style],
  ["Version", (song) => song.version],
  ["Tuning", (song) => song.tuning],
  ["Capo", (song) => (song.capo === 0 ? "" : String(song.capo))],
  ["Count-in", (song) => song.countIn],
  ["Ending", (song) => song.ending],
  ["Notes", (song) => song.notes],
];

/**
 * The repertoire as a table for spreadsheets, in the order given: RFC 4180 with a header, formula guard (csv.ts)
 * and a byte order mark in front, without which common spreadsheets take UTF-8 for another encoding.
 */
export const writeRepertoire = (songs: readonly Song[]): string => {
  const rows = songs.map((song) => COLUMNS.map(([, cell]) => cell(song)));
  return `\ufeff${writeCsv([COLUMNS.map(([name]) => name), ...rows])}`;
};
