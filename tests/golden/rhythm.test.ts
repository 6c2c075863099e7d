/*
 * Published values of rhythm. Sources:
 * - Gómez, Melvin, Rappaport & Toussaint, "Mathematical Measures of Syncopation", BRIDGES 2005, figures 8 and 11 (WNBD and
 *   off-beatness of the six 4/4 timelines and the ten 12/8 bells), values as reported in the tests of the open source
 *   library AMADS (music-computing/amads, test_meter_profiles.py).
 * - Díaz-Báñez, Farigu, Gómez, Rappaport & Toussaint, "El Compás Flamenco: A Phylogenetic Analysis", BRIDGES 2004, the two
 *   distance matrices.
 * - Longuet-Higgins & Lee, "The Rhythmic Interpretation of Monophonic Music", Music Perception 1984, for the weights; the
 *   sums of the six timelines from memory of Toussaint's metric complexity, which gives the same.
 */
import { describe, expect, test } from "vitest";
import { chronotonicDistance, swapDistance } from "#shared/music/rhythm/distance.ts";
import { readPattern } from "#shared/music/rhythm/pattern.ts";
import {
  heldOver,
  metricalWeights,
  noteToBeatDistance,
  offBeatness,
} from "#shared/music/rhythm/syncopation.ts";

const TIMELINES = [
  ["shiko", "1000101000101000", 6 / 5, 0, 2],
  ["son", "1001001000101000", 14 / 5, 1, 4],
  ["rumba", "1001000100101000", 18 / 5, 2, 5],
  ["soukous", "1001001000110000", 18 / 5, 2, 6],
  ["gahu", "1001001000100010", 18 / 5, 1, 5],
  ["bossa-nova", "1001001000100100", 4, 2, 6],
] as const;

test.each(TIMELINES)("the 4/4 timeline %s", (_, text, distance, offBeat, over) => {
  const pattern = readPattern(text);
  expect(noteToBeatDistance(pattern, 4)).toBeCloseTo(distance, 12);
  expect(offBeatness(pattern)).toBe(offBeat);
  expect(heldOver(pattern, 4)).toBe(over);
});

/** The paper prints 15/7 as 2.142, truncated. */
const BELLS = [
  ["soli", "101010101101", 1, 15 / 7],
  ["tambú", "101010110101", 2, 15 / 7],
  ["bembé", "101011010101", 3, 3],
  ["bembé-2", "110101101010", 2, 15 / 7],
  ["yoruba", "101011010110", 2, 3],
  ["tonada", "101101101010", 1, 15 / 7],
  ["asaadua", "101010110110", 1, 15 / 7],
  ["sorsonet", "111010101010", 1, 3],
  ["bemba", "101101010110", 2, 15 / 7],
  ["ashanti", "101101011010", 2, 3],
] as const;

test.each(BELLS)("the 12/8 bell %s", (_, text, offBeat, distance) => {
  const pattern = readPattern(text);
  expect(offBeatness(pattern)).toBe(offBeat);
  expect(noteToBeatDistance(pattern, 3)).toBeCloseTo(distance, 12);
});

test("the weights of a 4/4 bar in sixteenths", () => {
  expect(metricalWeights(16, 4)).toEqual([0, -4, -3, -4, -2, -4, -3, -4, -1, -4, -3, -4, -2, -4, -3, -4]);
});

describe("flamenco", () => {
  const FIVE = [
    ["soleá", "001001010101"],
    ["bulería", "001000110101"],
    ["seguiriya", "101010010010"],
    ["guajira", "100100101010"],
    ["fandango", "100100100100"],
  ] as const;

  /** The slides of the paper print 25 as the sum of the first row; its entries add to 26. */
  const SWAP = [
    [0, 1, 11, 7, 7],
    [1, 0, 12, 8, 8],
    [11, 12, 0, 4, 4],
    [7, 8, 4, 0, 2],
    [7, 8, 4, 2, 0],
  ];
  const CHRONOTONIC = [
    [0, 6, 8, 4, 10],
    [6, 0, 12, 8, 14],
    [8, 12, 0, 8, 6],
    [4, 8, 8, 0, 6],
    [10, 14, 6, 6, 0],
  ];

  test.each(FIVE.map(([name], row) => ({ name, row })))("distances from $name", ({ row }) => {
    const from = readPattern(FIVE[row]?.[1] ?? "");
    const to = FIVE.map(([, text]) => readPattern(text));
    expect(to.map((pattern) => swapDistance(from, pattern))).toEqual(SWAP[row]);
    expect(to.map((pattern) => chronotonicDistance(from, pattern))).toEqual(CHRONOTONIC[row]);
  });

  test("only guajira and fandango stay off the off-beats", () => {
    expect(FIVE.filter(([, text]) => offBeatness(readPattern(text)) === 0).map(([name]) => name)).toEqual([
      "guajira",
      "fandango",
    ]);
  });
});
