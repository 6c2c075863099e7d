import { describe, expect, test } from "vitest";
import type { Shape } from "#shared/board/grid.ts";
import { gridFault, shapeFault, shapeRemark } from "#shared/board/grid-reading.ts";
import { countingOf, fretsText, gridWords, readFrets, shapeWords } from "#shared/music/grid-words.ts";

const nameOf = (chair: string): string => (chair === "dr" ? "Kick" : "Bass");
const bar = (hits: string, perBeat: number) => ({
  steps: hits.length,
  perBeat,
  rows: [{ chair: "dr", hits }],
});

// Counting syllables: common practice, no published source.
describe("a grid in words", () => {
  test.each([
    ["x.....x.....x...", 4, "4/4", "Kick on 1, 2 and, 4."],
    ["xxxx............", 4, "4/4", "Kick on 1, 1 e, 1 and, 1 a."],
    ["x..x..X.", 2, "4/4", "Kick on 1, 2 and; accents on 4."],
    ["xoX.........", 3, "4/4", "Kick on 1; accents on 1 let; ghosts on 1 trip."],
    ["x.xx.x", 3, "6/8", "Kick on 1, 1 a, 2, 2 a."],
    ["x.....x", 1, "3+2+2/8", "Kick on 1, 7."],
    ["x....x", 6, "2/4", "Kick on 1, 1 step 6."],
    ["................", 4, "4/4", "Kick rests."],
    ["x.......x.....x.", 2, "4/4", "Kick on bar 1: 1, bar 2: 1, 4."],
    ["x...", 1, "no metre", "Kick on 1."],
    ["x--.X-..........", 4, "4/4", "Kick on 1 held for 3 steps; accents on 2 held for 2 steps."],
    ["-.....x-", 2, "4/4", "Kick on 4 held for 3 steps."],
  ])("%s, %i a beat in %s: %s", (hits, perBeat, metre, words) => {
    expect(gridWords(bar(hits, perBeat), metre, nameOf)).toBe(words);
  });

  test("a row for each chair is a sentence of its own", () => {
    const grid = {
      steps: 4,
      perBeat: 1,
      rows: [
        { chair: "dr", hits: "x.x." },
        { chair: "bs", hits: ".X.X" },
      ],
    };
    expect(gridWords(grid, "4/4", nameOf)).toBe("Kick on 1, 3. Bass accents on 2, 4.");
  });

  test("voices of one chair are rows by their own names, and a voice that two chairs have says whose", () => {
    const rows = [
      { chair: "dr", voice: "snare", hits: "..x." },
      { chair: "dr", voice: "clap", hits: ".x.." },
      { chair: "bs", voice: "clap", hits: "...x" },
    ] as const;
    const named = (chair: string) => (chair === "dr" ? "Drums" : "Bass");
    expect(gridFault({ steps: 4, perBeat: 1, rows })).toBeNull();
    expect(gridWords({ steps: 4, perBeat: 1, rows }, "4/4", named)).toBe(
      "Snare on 3. Clap (Drums) on 2. Clap (Bass) on 4.",
    );
  });

  test("counts the bars of a longer grid", () => {
    const counting = countingOf({ steps: 32, perBeat: 4 }, "4/4");
    expect([counting.bars, counting.barOf(15), counting.barOf(16), counting.nameOf(22)]).toEqual([
      2,
      1,
      2,
      "2 and",
    ]);
  });
});

const shape = (frets: readonly (number | null)[], fingers?: readonly (number | null)[], capo = 0): Shape => ({
  frets,
  fingers: fingers ?? frets.map(() => null),
  capo,
});

describe("a shape in words", () => {
  test("string by string, as players number them", () => {
    expect(shapeWords(shape([null, 3, 2, 0, 3, 0], [null, 2, 1, null, 3, null], 5))).toBe(
      "Capo 5, frets counted from it. String 6 not played, 5 fret 3 with finger 2, 4 fret 2 with finger 1, 3 open, 2 fret 3 with finger 3, 1 open.",
    );
  });

  test.each([
    [[null, 3, 2, 0, 1, 0], "x32010"],
    [[10, 12, 12, 11, null, null], "10-12-12-11-x-x"],
    [[0, 2, 2, 0], "0220"],
  ])("%j is written %s, and read back", (frets, text) => {
    expect(fretsText({ frets })).toBe(text);
    expect(readFrets(text)).toEqual(frets);
  });

  test.each(["x3201z", "25-1-1-1", "x32-", "-1-2-3-4"])("%s is no frets", (text) => {
    expect(readFrets(text)).toBeNull();
  });
});

describe("what is no grid or shape says what to do", () => {
  test.each([
    [{ steps: 3, perBeat: 1, rows: [{ chair: "dr", hits: "x.." }] }, /4 to 48 steps/],
    [{ steps: 52, perBeat: 4, rows: [{ chair: "dr", hits: "x" }] }, /4 to 48 steps/],
    [{ steps: 8, perBeat: 3, rows: [{ chair: "dr", hits: "x......." }] }, /that 3 divides/],
    [{ steps: 8, perBeat: 0, rows: [{ chair: "dr", hits: "x......." }] }, /1 to 12/],
    [{ steps: 4, perBeat: 1, rows: [] }, /at least one chair/],
    [
      {
        steps: 4,
        perBeat: 1,
        rows: [
          { chair: "dr", hits: "x..." },
          { chair: "dr", hits: "x..." },
        ],
      },
      /two rows/,
    ],
    [{ steps: 4, perBeat: 1, rows: [{ chair: "dr", hits: "x.." }] }, /3 of 4 steps/],
    [{ steps: 4, perBeat: 1, rows: [{ chair: "dr", hits: "x.y." }] }, /dot for a rest/],
    [{ steps: 4, perBeat: 1, rows: [{ chair: "dr", hits: "x.-." }] }, /no note sounds before it/],
    [{ steps: 4, perBeat: 1, rows: [{ chair: "dr", hits: "-x.." }] }, /no note sounds before it/],
    [{ steps: 4, perBeat: 1, rows: [{ chair: "dr", hits: "----" }] }, /no note sounds before it/],
  ])("grid %j", (grid, words) => {
    expect(gridFault(grid)).toMatch(words);
  });

  test.each([
    [shape([0, 0, 0]), /4 to 8 strings/],
    [shape([0, 0, 0, 25]), /0 \(open\) to 24/],
    [shape([null, null, null, null]), /No string is played/],
    [{ ...shape([0, 2, 2, 0]), fingers: [] }, /more or fewer fingers/],
    [shape([0, 2, 2, 0], [1, 1, 2, null]), /open or unplayed/],
    [shape([0, 2, 2, 0], [null, 5, 2, null]), /1 \(index\) to 4/],
    [shape([0, 2, 2, 0], undefined, 13), /0 \(none\) to 12/],
  ])("shape %j", (wrong, words) => {
    expect(shapeFault(wrong)).toMatch(words);
  });

  test("a wide stretch is allowed, and said", () => {
    expect(shapeFault(shape([1, null, null, 6]))).toBeNull();
    expect(shapeRemark(shape([1, null, null, 6]))).toMatch(/spans 6 frets/);
    expect(shapeRemark(shape([1, 0, null, 5]))).toBeNull();
  });
});
