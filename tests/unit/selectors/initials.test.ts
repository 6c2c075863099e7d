import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { initialsOf, UNNAMED } from "#shared/selectors/initials.ts";
import { laws } from "#tests/support/fuzz.ts";

describe("initials", () => {
  test.each([
    ["Lucía Borrasco", "LB"],
    ["Min-jae Pardal", "MP"],
    ["Anneli", "AN"],
    ["  tomasz  ", "TO"],
    ["Maria de la Cruz", "MC"],
    ["Åsa", "ÅS"],
    ["Ærlig ßtein", "ÆSS"],
    ["O", "O"],
    ["", UNNAMED],
    ["…!", UNNAMED],
    [undefined, UNNAMED],
    ["7 Sevens", "7S"],
  ])("of %j are %j", (name, initials) => expect(initialsOf(name)).toBe(initials));

  test("are short and never empty, whatever the name", () => {
    fc.assert(
      fc.property(fc.string({ unit: "grapheme", maxLength: 40 }), (name) => {
        const initials = initialsOf(name);
        expect(initials.length).toBeGreaterThan(0);
        expect(initials.length).toBeLessThanOrEqual(8);
      }),
      laws(),
    );
  });
});
