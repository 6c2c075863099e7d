import { foldText } from "../lib/fold-text.ts";
import { parseLength } from "../music/duration.ts";
import { parseKey } from "../music/key.ts";
import { parseTempo } from "../music/tempo.ts";
import { type CsvRecord, type Delimiter, readCsv } from "./csv.ts";

/** What every list is looked through for, with or without a header. */
export type MainColumn = "title" | "key" | "tempo" | "length";
/** What a header may name besides. */
export type FurtherColumn =
  | "stage"
  | "metre"
  | "recordKey"
  | "liftKey"
  | "energy"
  | "style"
  | "version"
  | "tuning"
  | "capo"
  | "countIn"
  | "firstChord"
  | "ending"
  | "form"
  | "notes";
export type SongColumn = MainColumn | FurtherColumn;

/** How a pasted list is laid out. */
export interface SongLayout {
  readonly records: readonly CsvRecord[];
  /** What each column holds; null = nothing we keep. */
  readonly columns: readonly (SongColumn | null)[];
  /** The record that names the columns; null = there is none. */
  readonly header: CsvRecord | null;
  /** Names of the columns we do not keep. */
  readonly leftOut: readonly string[];
}

const NAMES: ReadonlyMap<string, SongColumn> = new Map([
  ["title", "title"],
  ["titles", "title"],
  ["song", "title"],
  ["songs", "title"],
  ["song title", "title"],
  ["name", "title"],
  ["key", "key"],
  ["band key", "key"],
  ["our key", "key"],
  ["tempo", "tempo"],
  ["bpm", "tempo"],
  ["length", "length"],
  ["duration", "length"],
  ["time", "length"],
  ["stage", "stage"],
  ["metre", "metre"],
  ["meter", "metre"],
  ["time signature", "metre"],
  ["recorded in", "recordKey"],
  ["lift to", "liftKey"],
  ["energy", "energy"],
  ["style", "style"],
  ["version", "version"],
  ["tuning", "tuning"],
  ["capo", "capo"],
  ["count-in", "countIn"],
  ["count in", "countIn"],
  ["first chord", "firstChord"],
  ["ending", "ending"],
  ["form", "form"],
  ["notes", "notes"],
]);

const MAIN: ReadonlySet<SongColumn> = new Set(["title", "key", "tempo", "length"]);

/** What an export works out and no list brings back; nobody has to be told that it is left out. */
const WORKED_OUT = /^ready\b/;

const DELIMITERS: readonly Delimiter[] = ["\t", ";", ","];

/**
 * Finds out what the columns of a list are: by a header in any order, else by what most cells look like,
 * else every line is one title, commas and all.
 */
export const findLayout = (text: string): SongLayout => {
  const tables = DELIMITERS.map((delimiter) => readCsv(text, delimiter));
  for (const records of tables) {
    const header = records[0];
    const columns = header && !header.broken ? namedColumns(header) : null;
    if (header && columns) {
      const leftOut = header.cells.filter(
        (cell, index) => !columns[index] && cell.trim() !== "" && !WORKED_OUT.test(foldText(cell)),
      );
      return { records: records.slice(1), columns, header, leftOut: leftOut.map((cell) => cell.trim()) };
    }
  }
  for (const records of tables) {
    const guess = guessedColumns(records);
    if (guess) return { records, header: null, ...guess };
  }
  return { records: wholeLines(text), columns: ["title"], header: null, leftOut: [] };
};

/** A header has a title column, or at least two names we know, and is not simply the list's first song. */
const namedColumns = (header: CsvRecord): readonly (SongColumn | null)[] | null => {
  const seen = new Set<SongColumn>();
  const columns = header.cells.map((cell) => {
    const column = NAMES.get(foldText(cell)) ?? null;
    if (column === null || seen.has(column)) return null;
    seen.add(column);
    return column;
  });
  const alone = header.cells.length === 1 && foldText(header.cells[0] ?? "") === "name";
  const main = [...seen].filter((column) => MAIN.has(column)).length;
  return !alone && (seen.has("title") || main > 1) ? columns : null;
};

type Looks = MainColumn | "number";

const guessedColumns = (records: readonly CsvRecord[]): Pick<SongLayout, "columns" | "leftOut"> | null => {
  const whole = records.filter((record) => !record.broken);
  const width = whole.reduce((most, record) => Math.max(most, record.cells.length), 0);
  if (width < 2) return null;
  const looks = Array.from({ length: Math.min(width, 50) }, (_, index) => looksOf(index, whole));
  const title = looks.indexOf("title");
  if (title < 0 || !looks.some((look) => look === "key" || look === "tempo" || look === "length"))
    return null;
  const again = looks.map((look, index) => look !== "number" && looks.indexOf(look) !== index);
  return {
    columns: looks.map((look, index) => (look === "number" || again[index] ? null : look)),
    leftOut: again.flatMap((left, index) => (left ? [`column ${index + 1}`] : [])),
  };
};

/** What at least half of the list's lines show in one column. */
const looksOf = (index: number, records: readonly CsvRecord[]): Looks => {
  const cells = records.map((record) => record.cells[index]?.trim() ?? "");
  const half = Math.max(1, records.length / 2);
  const share = (fits: (cell: string) => boolean) => cells.filter((cell) => cell !== "" && fits(cell)).length;
  if (records.length > 1 && cells.every((cell, row) => cell === String(row + 1))) return "number";
  if (share((cell) => parseKey(cell).ok) >= half) return "key";
  if (share((cell) => parseTempo(cell).ok) >= half) return "tempo";
  if (share((cell) => parseLength(cell).ok) >= half) return "length";
  return "title";
};

/** Quotation marks around a whole line are a spreadsheet's; anywhere else in a title they are the title's own. */
const wholeLines = (text: string): readonly CsvRecord[] =>
  text.split(/\r\n|\r|\n/).flatMap((raw, index): readonly CsvRecord[] => {
    if (/^[\s,;]*$/.test(raw)) return [];
    const [record] = readCsv(raw, "\t");
    const broken = record?.broken === "unclosed" ? record.broken : null;
    const cell = record && !record.broken && record.cells.length === 1 ? record.cells[0] : raw;
    return [{ line: index + 1, cells: [cell ?? raw], broken }];
  });
