import { describe, expect, test } from "vitest";
import { type SourceFile, sourceFiles } from "#tests/support/source-files.ts";

const sources = sourceFiles("shared-model", "client", "server");
const tests = sourceFiles("tests");

const linesWith = (files: readonly SourceFile[], pattern: RegExp): readonly string[] =>
  files.flatMap(({ path, text }) =>
    text.split("\n").flatMap((line, i) => (pattern.test(line) ? [`${path}:${i + 1}: ${line.trim()}`] : [])),
  );

describe("[HOUSE-2] the model is pure", () => {
  const IMPURE =
    /\bDate\.now\b|\bnew Date\(\)|\bMath\.random\b|\bperformance\.|\bcrypto\.|\bglobalThis\b|\bprocess\./;

  test("no clock, randomness or process in shared-model", () => {
    expect(linesWith(sourceFiles("shared-model"), IMPURE)).toEqual([]);
  });

  test("a planted clock is caught", () => {
    expect(linesWith([{ path: "shared-model/x.ts", text: "const now = Date.now();" }], IMPURE)).toHaveLength(
      1,
    );
  });
});

describe("[HOUSE-3] files stay small", () => {
  const MAX_LINES = 400;
  const tooLong = (files: readonly SourceFile[]): readonly string[] =>
    files.filter(({ text }) => text.split("\n").length > MAX_LINES).map(({ path }) => path);

  test("no source file is over 400 lines", () => {
    expect(tooLong(sources)).toEqual([]);
  });

  test("a planted long file is caught", () => {
    expect(tooLong([{ path: "x.ts", text: "\n".repeat(MAX_LINES + 1) }])).toEqual(["x.ts"]);
  });
});

describe("[HOUSE-4] tests run", () => {
  // Spelled apart so that this file does not catch itself.
  const QUIET = new RegExp(
    ["\\b(test|it|describe)\\.(on", "ly|ski", "p|to", "do)\\b|\\bx(it|describe)\\("].join(""),
  );

  test("no test is focused, skipped or left to do", () => {
    expect(linesWith(tests, QUIET)).toEqual([]);
  });

  test("a planted skip is caught", () => {
    expect(
      linesWith([{ path: "x.test.ts", text: "test.ski_p('x', () => {})".replace("ski_p", "skip") }], QUIET),
    ).toHaveLength(1);
  });
});

describe("[HOUSE-5] nothing of the workshop stays behind", () => {
  const WORKSHOP = /\b(TODO|FIXME|XXX)\b|(^|["'\s(])\/(tmp|work|root)\//;

  test("no open ends and no paths of somebody's machine in the sources", () => {
    expect(linesWith(sources, WORKSHOP)).toEqual([]);
  });

  test("a planted machine path is caught", () => {
    expect(linesWith([{ path: "x.ts", text: 'const folder = "/' + 'tmp/x";' }], WORKSHOP)).toHaveLength(1);
  });
});
