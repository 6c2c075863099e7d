import type { SongFile } from "../board/board.ts";
import type { Day } from "../lib/calendar.ts";
import { formatLength } from "../music/duration.ts";
import { nightChord } from "../selectors/night-facts.ts";
import { writeCsv } from "./csv.ts";
import { formText } from "./form-text.ts";

/** A song as a line of the table. */
export interface RepertoireLine {
  readonly file: Pick<SongFile, "song" | "sections">;
  /** How ready it is on the night, in percent; null = not asked. */
  readonly ready: number | null;
}

const COLUMNS: readonly (readonly [string, (file: RepertoireLine["file"]) => string])[] = [
  ["Title", ({ song }) => song.title],
  ["Key", ({ song }) => song.key],
  ["Tempo", ({ song }) => (song.tempo === null ? "" : String(song.tempo))],
  ["Length", ({ song }) => (song.length === null ? "" : formatLength(song.length))],
  ["Stage", ({ song }) => song.stage],
  ["Metre", ({ song }) => song.metre],
  ["Recorded in", ({ song }) => song.recordKey],
  ["Lift to", ({ song }) => song.liftKey],
  ["Energy", ({ song }) => (song.energy === null ? "" : String(song.energy))],
  ["Style", ({ song }) => song.style],
  ["Version", ({ song }) => song.version],
  ["Tuning", ({ song }) => song.tuning],
  ["Capo", ({ song }) => (song.capo === 0 ? "" : String(song.capo))],
  ["Count-in", ({ song }) => song.countIn],
  ["First chord", ({ song }) => nightChord(song, null)],
  ["Ending", ({ song }) => song.ending],
  ["Form", ({ sections }) => formText(sections)],
  ["Notes", ({ song }) => song.notes],
];

/**
 * The repertoire as a table for spreadsheets, in the order given: RFC 4180 with a header, formula guard (csv.ts)
 * and a byte order mark in front, without which common spreadsheets take UTF-8 for another encoding. `readSongList` reads
 * it back. `night`: the day the songs are ready for.
 */
export const writeRepertoire = (lines: readonly RepertoireLine[], night: Day): string => {
  const names = [...COLUMNS.map(([name]) => name), `Ready on ${night} (%)`];
  const rows = lines.map(({ file, ready }) => [
    ...COLUMNS.map(([, cell]) => cell(file)),
    ready === null ? "" : String(ready),
  ]);
  return `\ufeff${writeCsv([names, ...rows])}`;
};
