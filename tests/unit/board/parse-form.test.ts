import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { parseForm } from "#shared/board/parse-form.ts";
import { laws } from "#tests/support/fuzz.ts";

describe("a form typed in a row", () => {
  test("is read section by section", () => {
    expect(parseForm("Intro 8, V1 16, Ch1 8")).toEqual({
      ok: true,
      value: [
        { name: "Intro", bars: 8 },
        { name: "V1", bars: 16 },
        { name: "Ch1", bars: 8 },
      ],
    });
  });

  test.each([
    ["V1·16", "V1", 16],
    ["V1: 16 bars", "V1", 16],
    ["Middle eight (8)", "Middle eight", 8],
    ["Solo × 12", "Solo", 12],
    ["Turn 1 bar", "Turn", 1],
    ["  Last   chorus   24 ", "Last chorus", 24],
  ])("%s is %s with %i bars", (typed, name, bars) => {
    expect(parseForm(typed)).toEqual({ ok: true, value: [{ name, bars }] });
  });

  test.each([
    ["Ch1 8 x2", "Ch1", 8, 2],
    ["Ch1 8x2", "Ch1", 8, 2],
    ["Ch1: 8 bars × 9", "Ch1", 8, 9],
    ["Middle eight (8) X3", "Middle eight", 8, 3],
  ])("%s is %s with %i bars, %i times in a row", (typed, name, bars, repeats) => {
    expect(parseForm(typed)).toEqual({ ok: true, value: [{ name, bars, repeats }] });
  });

  test("once in a row is what goes without saying", () => {
    expect(parseForm("Ch1 8 x1")).toEqual({ ok: true, value: [{ name: "Ch1", bars: 8 }] });
  });

  test("may stand on lines and end in a comma", () => {
    const read = parseForm("Intro 8\nV1 16;\n\nCh1 8,");
    expect(read.ok && read.value.map(({ name }) => name)).toEqual(["Intro", "V1", "Ch1"]);
  });

  test.each([
    ["Intro 8, V1 -4, Ch1 8", "Part 2, “V1 -4”: bars are a whole number from 1 to 999."],
    ["Intro 8, V1 −4", "Part 2, “V1 −4”: bars are a whole number from 1 to 999."],
    ["Intro 0", "Part 1, “Intro 0”: bars are a whole number from 1 to 999."],
    ["Intro 2.5", "Part 1, “Intro 2.5”: bars are a whole number from 1 to 999."],
    ["Intro 1000", "Part 1, “Intro 1000”: bars are a whole number from 1 to 999."],
    ["Intro 8 x0", "Part 1, “Intro 8 x0”: it comes from 1 to 9 times in a row."],
    ["Intro 8, V1 4 x10", "Part 2, “V1 4 x10”: it comes from 1 to 9 times in a row."],
    ["Intro 8, V1", "Part 2, “V1”: say how many bars it has, as in “V1 8”."],
    ["Intro 8, 16", "Part 2, “16”: name the section before its bars."],
    ["", "Write each section with its bars, as in “Intro 8, V1 16, Ch1 8”."],
  ])("%j is refused with the part that is wrong", (typed, sentence) => {
    expect(parseForm(typed)).toEqual({ ok: false, error: sentence });
  });

  test("is bounded in sections and in the length of a name", () => {
    expect(parseForm(Array.from({ length: 101 }, (_, i) => `V${i} 8`).join(",")).ok).toBe(false);
    expect(parseForm(`${"x".repeat(201)} 8`).ok).toBe(false);
  });

  test("whatever names and bars are written down come back", () => {
    const name = fc.stringMatching(/^[A-Za-z][A-Za-z0-9]{0,9}( [A-Za-z][A-Za-z0-9]{0,5})?$/);
    const form = fc.array(fc.record({ name, bars: fc.integer({ min: 1, max: 999 }) }), {
      minLength: 1,
      maxLength: 30,
    });
    fc.assert(
      fc.property(form, fc.constantFrom(", ", ";", "\n"), (sections, between) => {
        const typed = sections.map(({ name, bars }) => `${name} ${bars}`).join(between);
        expect(parseForm(typed)).toEqual({ ok: true, value: sections });
      }),
      laws(),
    );
  });
});
