/** Tables as text. Sources: RFC 4180 §2 (examples quoted beside the checks); papaparse 5.7.1 as a second reader. */
import fc from "fast-check";
import Papa from "papaparse";
import { expect, test } from "vitest";
import { readCsv, unguard, writeCsv } from "#shared/exchange/csv.ts";
import { laws } from "#tests/support/fuzz.ts";

const cellsOf = (text: string) => readCsv(text, ",").map((record) => record.cells);

const examples: readonly (readonly [string, string, readonly (readonly string[])[]])[] = [
  [
    "rule 1: each record on its own line",
    "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n",
    [
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ],
  ],
  [
    "rule 2: the last line break is optional",
    "aaa,bbb,ccc\r\nzzz,yyy,xxx",
    [
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ],
  ],
  [
    "rule 5: quotes may enclose cells",
    '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
    [
      ["aaa", "bbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ],
  ],
  [
    "rule 6: line breaks inside quotes",
    '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
    [
      ["aaa", "b\r\nbb", "ccc"],
      ["zzz", "yyy", "xxx"],
    ],
  ],
  ["rule 7: a doubled quote is one quote", '"aaa","b""bb","ccc"', [["aaa", 'b"bb', "ccc"]]],
  ["rule 4: spaces are part of a cell", " aaa , bbb", [[" aaa ", " bbb"]]],
];

test.each(examples)("%s", (_, text, cells) => {
  expect(cellsOf(text)).toEqual(cells);
  expect(Papa.parse(text).data.filter((row) => String(row) !== "")).toEqual(cells);
});

const cell = fc.oneof(
  fc.string({ maxLength: 8 }),
  fc
    .array(fc.constantFrom('"', ",", "\r\n", "\n", "=", "'", "@", " ", "a", "é", ";", "\t"), { maxLength: 5 })
    .map((c) => c.join("")),
);
const rows = fc.array(fc.array(cell, { minLength: 2, maxLength: 5 }), { maxLength: 6 });

test("what is written is read back by us and by papaparse, cell by cell", () => {
  fc.assert(
    fc.property(rows, (table) => {
      const text = writeCsv(table);
      expect(cellsOf(text).map((cells) => cells.map(unguard))).toEqual(table);
      expect(cellsOf(text)).toEqual(
        Papa.parse<string[]>(text, { delimiter: ",", newline: "\r\n" }).data.slice(0, -1),
      );
    }),
    laws(),
  );
});

test("[FILE-2] no cell begins with a sign a spreadsheet runs (OWASP, CSV Injection: = + - @ tab, carriage return)", () => {
  fc.assert(
    fc.property(rows, (table) => {
      for (const cells of cellsOf(writeCsv(table))) {
        for (const written of cells) expect(written).not.toMatch(/^[=+\-@\t\r]/);
      }
    }),
    laws(),
  );
});

test("a broken record costs its own line only", () => {
  const broken = 'a,"b\nc,d\n"e" f,g\n"h\ni",j\n';
  expect(readCsv(broken, ",")).toEqual([
    { line: 1, cells: ['a,"b'], broken: "unclosed" },
    { line: 2, cells: ["c", "d"], broken: null },
    { line: 3, cells: ['"e" f,g'], broken: "text after quote" },
    { line: 4, cells: ["h\ni", "j"], broken: null },
  ]);
  expect(readCsv('x,y\n"open,z\nu,v', ",").map(({ line, broken: why }) => [line, why])).toEqual([
    [1, null],
    [2, "unclosed"],
    [3, null],
  ]);
});

test("any text splits into records that lie in order and never run past its lines", () => {
  fc.assert(
    fc.property(
      fc.array(cell, { maxLength: 12 }),
      fc.constantFrom("," as const, ";" as const, "\t" as const),
      (parts, delimiter) => {
        const text = parts.join("");
        const lines = readCsv(text, delimiter).map((record) => record.line);
        expect([...lines].sort((a, b) => a - b)).toEqual(lines);
        expect(new Set(lines).size).toBe(lines.length);
        expect(Math.max(0, ...lines)).toBeLessThanOrEqual(text.split(/\r\n|\r|\n/).length);
      },
    ),
    laws(),
  );
});
