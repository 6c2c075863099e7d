import fc from "fast-check";
import { expect, test } from "vitest";
import {
  DEFAULT_CHOICES,
  FILTERS,
  formatChoices,
  parseChoices,
  SORTS,
  STAGE_CHOICES,
} from "#shared/selectors/board-choices.ts";
import { laws } from "#tests/support/fuzz.ts";

test("choices come back as they were kept, the search left out", () => {
  const choices = fc.record({
    sort: fc.constantFrom(...SORTS),
    filters: fc.subarray([...FILTERS]).map((some) => new Set(some)),
    stage: fc.constantFrom(...STAGE_CHOICES),
    search: fc.string(),
  });
  fc.assert(
    fc.property(choices, (given) => {
      expect(parseChoices(formatChoices(given))).toEqual({ ...given, search: "" });
    }),
    laws(),
  );
});

test("the usual choice is kept as nothing", () => {
  expect(formatChoices(DEFAULT_CHOICES)).toBe("");
  expect(parseChoices("")).toEqual(DEFAULT_CHOICES);
});

test("whatever was kept reads as some choice", () => {
  fc.assert(
    fc.property(fc.string(), (text) => {
      expect(SORTS).toContain(parseChoices(text).sort);
    }),
    laws(),
  );
  expect(parseChoices("sort=best&show=gig,nothing&stage=in-the-book&more")).toEqual({
    sort: "worst",
    filters: new Set(["gig"]),
    stage: "in the book",
    search: "",
  });
});
