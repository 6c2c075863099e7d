import { readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { sourceFiles } from "#tests/support/source-files.ts";

const RULE_ROW = /^\| ([A-Z]+-\d+) \|/gm;
const CITED = /["'`]((?:\[[A-Z]+-\d+\]\s*)+)/g;

/** Ids of the rules a text lists, one table row each. */
const rulesIn = (text: string): readonly string[] => [...text.matchAll(RULE_ROW)].map(([, id = ""]) => id);

/** Ids that titles in a test file cite at their beginning. */
const citedIn = (text: string): readonly string[] =>
  [...text.matchAll(CITED)].flatMap(([, ids = ""]) => [...ids.matchAll(/[A-Z]+-\d+/g)].map(([id]) => id));

const rules = rulesIn(readFileSync(new URL("../../DEVELOPERS.md", import.meta.url), "utf8"));
const cited = sourceFiles("tests")
  .filter(({ path }) => /\.(test|e2e)\.tsx?$/.test(path) && !path.endsWith("/rules.test.ts"))
  .flatMap(({ text }) => citedIn(text));

describe("the numbered rules of DEVELOPERS.md", () => {
  test("there are some, and each is listed once", () => {
    expect(rules.length).toBeGreaterThan(20);
    expect(new Set(rules).size).toBe(rules.length);
  });

  test("each is cited by the title of at least one test", () => {
    expect(rules.filter((rule) => !cited.includes(rule))).toEqual([]);
  });

  test("no title cites an unknown rule", () => {
    expect(cited.filter((rule) => !rules.includes(rule))).toEqual([]);
  });

  test("a title that cites two rules counts for both", () => {
    expect(citedIn('test("[DOC-1] [DOC-2] reads anything", () => {})')).toEqual(["DOC-1", "DOC-2"]);
  });
});
