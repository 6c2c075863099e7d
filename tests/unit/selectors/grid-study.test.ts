import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type Grid, type GridVoice, rowKey } from "#shared/board/grid.ts";
import { gridDifference } from "#shared/music/rhythm/grid-difference.ts";
import { marksOf, onSameSteps, patternOf } from "#shared/music/rhythm/grid-rows.ts";
import { differenceWords } from "#shared/selectors/grid-study/difference-words.ts";
import { lockWords } from "#shared/selectors/grid-study/lock-words.ts";
import { numbersOf } from "#shared/selectors/grid-study/numbers.ts";
import { stepWords } from "#shared/selectors/grid-study/step-words.ts";

type Row = readonly [name: string, hits: string];
const KIT: readonly string[] = ["kick", "snare", "clap"];
const gridOf = (perBeat: number, ...rows: readonly Row[]): Grid => ({
  steps: rows[0]?.[1].length ?? 0,
  perBeat,
  rows: rows.map(([name, hits]) =>
    KIT.includes(name) ? { chair: "drums", voice: name as GridVoice, hits } : { chair: name, hits },
  ),
});
const nameOf = (chair: string): string => chair[0]?.toUpperCase() + chair.slice(1);
const told = (recorded: Grid, ours: Grid, metre = "4/4") =>
  differenceWords(recorded, ours, metre, nameOf)?.map(({ name, words }) => `${name}: ${words}`);

describe("ours against the recording", () => {
  test("says what is late, early, missing and extra, by note values", () => {
    const recorded = gridOf(4, ["kick", "x.......x......."], ["bass", "x...x.......x..."]);
    const ours = gridOf(4, ["kick", "x.......x......."], ["bass", "x....x.........x"]);
    expect(told(recorded, ours)).toEqual([
      "Kick: as on the recording",
      "Bass: 2 is late by a sixteenth; 4 is missing; 4 a is extra",
    ]);
    expect(told(ours, recorded)?.[1]).toBe("Bass: 2 e is early by a sixteenth; 4 is extra; 4 a is missing");
  });

  test("says how a note is struck and held, and which rows one of them lacks", () => {
    const recorded = gridOf(2, ["bass", "X---x..."], ["clap", "..x...x."]);
    const ours = gridOf(2, ["bass", "x-..x..."], ["snare", "..x...x."]);
    expect(told(recorded, ours)).toEqual([
      "Bass: 1 is a hit, on the recording an accent; 1 is shorter by a quarter",
      "Snare: not on the recording",
      "Clap: on the recording only",
    ]);
  });

  test("says of a row that is moved as a whole that it is, and how a moved note ends", () => {
    const recorded = gridOf(4, ["kick", "x---..x.....o..."], ["bass", "x-......x--....."]);
    const ours = gridOf(4, ["kick", ".x---..x.....X.."], ["bass", ".x.......x-....."]);
    expect(told(recorded, ours)).toEqual([
      "Kick: every note is late by a sixteenth; 4 is an accent, on the recording a ghost",
      "Bass: every note is late by a sixteenth; 1 is shorter by a sixteenth; 3 is shorter by a sixteenth",
    ]);
    expect(told(gridOf(1, ["bass", "x..."]), gridOf(1, ["bass", ".x.."]))).toEqual([
      "Bass: 1 is late by a quarter",
    ]);
  });

  test("compares other divisions, and one bar with two, but not three beats with four", () => {
    expect(told(gridOf(2, ["bass", "x.x.x.x."]), gridOf(4, ["bass", "x...x...x...x..."]))).toEqual([
      "Bass: as on the recording",
    ]);
    expect(told(gridOf(1, ["bass", "x.x."]), gridOf(1, ["bass", "x.x.x..."]))).toEqual([
      "Bass: bar 2: 3 is missing",
    ]);
    expect(told(gridOf(1, ["bass", "x.x.x."]), gridOf(1, ["bass", "x.x."]))).toBeUndefined();
  });

  test("a grid is as itself on any finer steps", () => {
    const hits = fc
      .array(fc.constantFrom(".", "x", "X", "o"), { minLength: 8, maxLength: 8 })
      .map((all) => all.join(""));
    fc.assert(
      fc.property(hits, fc.integer({ min: 1, max: 3 }), (bass, by) => {
        const one = gridOf(2, ["bass", bass]);
        const fine = gridOf(2 * by, ["bass", [...bass].map((hit) => hit + ".".repeat(by - 1)).join("")]);
        const difference = gridDifference(one, fine);
        expect(difference?.rows.flatMap(({ changes }) => changes)).toEqual([]);
        expect(onSameSteps(one, fine)?.[0].steps).toBe(8 * by);
      }),
      { numRuns: 1000 },
    );
  });
});

test.each([
  [1, 4, "4/4", "a sixteenth"],
  [3, 4, "4/4", "a dotted eighth"],
  [1, 3, "4/4", "an eighth triplet"],
  [2, 3, "4/4", "a quarter triplet"],
  [1, 3, "6/8", "an eighth"],
  [1, 6, "12/8", "a sixteenth"],
  [1, 1, "7/8", "an eighth"],
  [1, 2, "2/2", "a quarter"],
  [5, 4, "4/4", "5 steps"],
  [1, 5, "4/4", "a step"],
])("%i of %i steps a beat in %s is %s", (steps, perBeat, metre, words) => {
  expect(stepWords(steps, { perBeat }, metre)).toBe(words);
});

describe("the lock with the kick", () => {
  const grid = gridOf(2, ["kick", "x..x...x"], ["bass", "x..x.x.."], ["snare", "..x...x."]);

  test("is told in words, pushes with the kick and without it", () => {
    expect(lockWords(grid, "4/4", nameOf)).toEqual([
      {
        name: "Bass",
        words:
          "with the kick on 1, 2 and; alone on 3 and; the kick alone on 4 and; 2 and pushes into 3, the kick with it; 3 and pushes into 4, the kick not",
      },
    ]);
    expect(lockWords(gridOf(2, ["bass", "x.x.x.x."]), "4/4", nameOf)).toEqual([]);
    expect(lockWords(gridOf(2, ["bass", "x.x.x..x"], ["guitar", "........"]), "4/4", nameOf)).toEqual([]);
    expect(lockWords(gridOf(2, ["bass", ".......x"]), "4/4", nameOf)).toEqual([
      { name: "Bass", words: "4 and pushes into 1" },
    ]);
  });

  test("is marked where it is drawn", () => {
    const bass = marksOf(grid).get(rowKey({ chair: "bass" }));
    expect([...(bass ?? [])]).toEqual([
      [0, { withKick: true, push: false }],
      [3, { withKick: true, push: true }],
      [5, { withKick: false, push: true }],
    ]);
    expect([...marksOf(grid).keys()]).toEqual([rowKey({ chair: "bass" })]);
  });

  test("has its numbers, each with a sentence", () => {
    const bass = grid.rows[1];
    if (bass === undefined) throw new Error("no bass");
    expect(patternOf(bass).onsets).toEqual([0, 3, 5]);
    const numbers = numbersOf(bass, grid);
    expect(numbers.map(({ label, value }) => [label, value])).toEqual([
      ["Together", "2"],
      ["Kick alone", "1"],
      ["Part alone", "1"],
      ["How far they meet", "0.67"],
      ["Beyond chance", "0.47"],
      ["Pushes", "1 with the kick, 1 without"],
      ["Density", "0.38"],
      ["Held over the beat", "3"],
      ["Distance from the beat", "2.00"],
      ["Off the even divisions", "2"],
    ]);
    for (const { says } of numbers) expect(says).toMatch(/^[A-Z].*\.$/);
  });
});
