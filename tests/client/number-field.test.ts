import { expect, test } from "vitest";
import { parseNumber } from "#client/ui/number-field.tsx";

const whole = { min: 1, max: 400, fractions: false };

test.each([
  ["118", 118],
  [" 118 ", 118],
  ["", null],
  ["  ", null],
  ["0", undefined],
  ["401", undefined],
  ["-4", undefined],
  ["12.5", undefined],
  ["fast", undefined],
  ["1e3", undefined],
  ["118bpm", undefined],
])("a whole number from 1 to 400, typed as '%s', reads as %s", (text, expected) => {
  expect(parseNumber(text, whole)).toBe(expected);
});

test.each([
  ["2,5", 2.5],
  ["2.5", 2.5],
  [".5", undefined],
])("a number with fractions, typed as '%s', reads as %s", (text, expected) => {
  expect(parseNumber(text, { min: 0, max: 10, fractions: true })).toBe(expected);
});
