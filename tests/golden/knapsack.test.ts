/*
 * Published 0/1 knapsack sets: P01 to P07 of the collection KNAPSACK_01 (J. Burkardt, Florida State University,
 * people.sc.fsu.edu/~jburkardt/datasets/knapsack_01), with their optima. Each item is a menu of one; weights are minutes. P08
 * is left out: its capacity of 6,404,180 has no grid of half minutes.
 */
import { expect, test } from "vitest";
import { solve } from "#shared/plan/solve.ts";

const SETS = [
  ["P01", 165, [23, 31, 29, 44, 53, 38, 63, 85, 89, 82], [92, 57, 49, 68, 60, 43, 67, 84, 87, 72], 309],
  ["P02", 26, [12, 7, 11, 8, 9], [24, 13, 23, 15, 16], 51],
  ["P03", 190, [56, 59, 80, 64, 75, 17], [50, 50, 64, 46, 50, 5], 150],
  ["P04", 50, [31, 10, 20, 19, 4, 3, 6], [70, 20, 39, 37, 7, 5, 10], 107],
  ["P05", 104, [25, 35, 45, 5, 25, 3, 2, 2], [350, 400, 450, 20, 70, 8, 5, 5], 900],
  ["P06", 170, [41, 50, 49, 59, 55, 57, 60], [442, 525, 511, 593, 546, 564, 617], 1735],
  [
    "P07",
    750,
    [70, 73, 77, 80, 82, 87, 90, 94, 98, 106, 110, 113, 115, 118, 120],
    [135, 139, 149, 150, 156, 163, 173, 184, 192, 201, 210, 214, 221, 229, 240],
    1458,
  ],
] as const;

test.each(SETS)("%s: %i minutes hold what is published", (_, minutes, weights, values, optimum) => {
  const menus = weights.map((weight, i) => ({
    song: `item ${i}`,
    must: false,
    choices: [{ phase: 0, minutes: weight, value: values[i] ?? 0 }],
  }));
  expect(solve(menus, [minutes])?.value).toBe(optimum);
});
