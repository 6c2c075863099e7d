/**
 * Tables as text. Source: RFC 4180, section 2, read leniently (any line end, any delimiter) and written strictly.
 * Governing rule: a broken record costs its own line only; reading goes on with the next one.
 */

export type Delimiter = "," | ";" | "\t";

export interface CsvRecord {
  /** Number of the line the record begins on, from 1. */
  readonly line: number;
  readonly cells: readonly string[];
  /** What is wrong with its quotation marks; null = nothing. The cells are then the bare text of the line. */
  readonly broken: "unclosed" | "text after quote" | null;
}

/** Splits a text into records; empty lines are left out. */
export const readCsv = (text: string, delimiter: Delimiter): readonly CsvRecord[] => {
  const records: CsvRecord[] = [];
  let at = 0;
  let line = 1;
  while (at < text.length) {
    const { record, end } = readRecord(text, at, line, delimiter);
    if (record.cells.length > 1 || record.cells[0] !== "") records.push(record);
    line += countLines(text, at, end);
    at = end;
  }
  return records;
};

interface ReadRecord {
  readonly record: CsvRecord;
  /** Where the next record begins. */
  readonly end: number;
}

const readRecord = (text: string, start: number, line: number, delimiter: Delimiter): ReadRecord => {
  const cells: string[] = [];
  let at = start;
  for (;;) {
    const cell = text[at] === '"' ? readQuoted(text, at) : readBare(text, at, delimiter);
    const after = text[cell.end];
    const ended = after === undefined || after === "\n" || after === "\r";
    if (cell.closed && (ended || after === delimiter)) {
      cells.push(cell.value);
      at = cell.end + 1;
      if (ended) return { record: { line, cells, broken: null }, end: afterLineEnd(text, cell.end) };
      continue;
    }
    const end = lineEnd(text, start);
    // A mark that only finds a partner in a later line was meant to close in this one.
    const broken = cell.closed && cell.end <= end ? "text after quote" : "unclosed";
    return { record: { line, cells: [text.slice(start, end)], broken }, end: afterLineEnd(text, end) };
  }
};

interface ReadCell {
  readonly value: string;
  readonly end: number;
  readonly closed: boolean;
}

const readBare = (text: string, start: number, delimiter: Delimiter | null): ReadCell => {
  let end = start;
  for (; end < text.length; end += 1) {
    const c = text[end];
    if (c === delimiter || c === "\n" || c === "\r") break;
  }
  return { value: text.slice(start, end), end, closed: true };
};

const readQuoted = (text: string, start: number): ReadCell => {
  let end = text.indexOf('"', start + 1);
  while (end >= 0 && text[end + 1] === '"') end = text.indexOf('"', end + 2);
  if (end < 0) return { value: "", end: text.length, closed: false };
  return { value: text.slice(start + 1, end).replaceAll('""', '"'), end: end + 1, closed: true };
};

const lineEnd = (text: string, start: number): number => readBare(text, start, null).end;

const afterLineEnd = (text: string, end: number): number =>
  text[end] === "\r" && text[end + 1] === "\n" ? end + 2 : Math.min(end + 1, text.length);

const countLines = (text: string, start: number, end: number): number =>
  text.slice(start, end).match(/\r\n|\r|\n/g)?.length ?? 0;

/**
 * Writes records with commas and CRLF. A cell that a spreadsheet would run as a formula (it begins with
 * `=`, `+`, `-`, `@`, tab or carriage return) gets an apostrophe in front, as OWASP's page on CSV injection advises;
 * `unguard` takes it off again.
 */
export const writeCsv = (rows: readonly (readonly string[])[]): string =>
  rows.map((cells) => `${cells.map(writeCell).join(",")}\r\n`).join("");

const writeCell = (value: string): string => {
  const guarded = GUARDED.test(value) ? `'${value}` : value;
  return /[",\r\n;\t]|^\s|\s$/.test(guarded) ? `"${guarded.replaceAll('"', '""')}"` : guarded;
};

/** Also text that already has apostrophes in front, so that taking one off gives back what was there. */
const GUARDED = /^'*[=+\-@\t\r]/;

/** Takes off the apostrophe that `writeCsv` puts before a formula. */
export const unguard = (value: string): string =>
  value.startsWith("'") && GUARDED.test(value) ? value.slice(1) : value;
