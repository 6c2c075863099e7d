import { expect, test } from "vitest";
import { halfName } from "#shared/board/half-name.ts";

test.each([
  ["Verse", ["Verse"], "Verse (2)"],
  ["Verse", ["Verse", "Chorus", "verse (2)"], "Verse (3)"],
  ["Verse (2)", ["Verse", "Verse (2)"], "Verse (3)"],
  ["Verse (2)", ["Verse (2)", "Verse (3)", "Verse (4)"], "Verse (5)"],
  ["Verse (live)", ["Verse (live)"], "Verse (live) (2)"],
  ["V1", ["V1", "V2"], "V1 (2)"],
  ["  Outro ", [], "Outro (2)"],
])("half of %s beside %j is %s", (name, taken, half) => {
  expect(halfName(name, taken)).toBe(half);
});

test("a name of full length is cut, so that the half fits as well", () => {
  const long = "x".repeat(200);
  expect(halfName(long, [long])).toBe(`${"x".repeat(196)} (2)`);
});
