/* The search behind running orders, on a sequencing problem whose optimum is published. */
import { expect, test } from "vitest";
import { type Compiled, compile } from "#shared/order/compiled.ts";
import type { SetBrief } from "#shared/order/set-facts.ts";
import { improve, ORDER_STEPS } from "#shared/order/solve-order.ts";

/** gr17 of TSPLIB (Reinelt, ORSA Journal on Computing 3, 1991): distances of 17 towns, lower rows with the diagonal. */
const GR17 = `0 633 0 257 390 0 91 661 228 0 412 227 169 383 0 150 488 112 120 267 0 80 572 196 77 351 63 0
134 530 154 105 309 34 29 0 259 555 372 175 338 264 232 249 0 505 289 262 476 196 360 444 402 495 0
353 282 110 324 61 208 292 250 352 154 0 324 638 437 240 421 329 297 314 95 578 435 0
70 567 191 27 346 83 47 68 189 439 287 254 0 211 466 74 182 243 105 150 108 326 336 184 391 145 0
268 420 53 239 199 123 207 165 383 240 140 448 202 57 0
246 745 472 237 528 364 332 349 202 685 542 157 289 426 483 0
121 518 142 84 297 35 29 36 236 390 238 301 55 96 153 336 0`;
/** Its shortest round trip, as published in the collection's list of solutions, and one that is as long. */
const OPTIMUM = 2085;
const TOUR = [17, 14, 15, 3, 11, 10, 2, 5, 9, 12, 16, 1, 4, 13, 7, 8, 6];

const numbers = GR17.split(/\s+/).map(Number);
const distance = (a: number, b: number): number => {
  const [low, high] = a < b ? [a, b] : [b, a];
  return numbers[(high * (high + 1)) / 2 + low] ?? Number.NaN;
};
const lengthOf = (towns: readonly number[]): number =>
  towns.slice(1).reduce((sum, town, i) => sum + distance(towns[i] ?? 0, town), 0);

test("the table is the published one: the published tour has the published length", () => {
  expect(numbers).toHaveLength((17 * 18) / 2);
  const tour = TOUR.map((town) => town - 1);
  expect(lengthOf([...tour, tour[0] ?? 0])).toBe(OPTIMUM);
});

test("the search finds a shortest round trip through all towns, from the first back to the first", () => {
  // Town 17 is the first one once more, so that an order with both ends pinned is a round trip.
  const towns = Array.from({ length: 18 }, (_, i) => i);
  const town = (i: number): number => (i === 17 ? 0 : i);
  const brief: SetBrief = {
    songs: towns.map((i) => ({
      id: String(i), seconds: 0, energy: 0, dance: 0, value: 0, opener: 1, closer: 1, tempo: null, key: "",
      tuning: "", rig: "", lead: null, hardToSing: false, mustPlay: true,
    })), // biome-ignore format: nothing but the distances counts
    blocks: [{ minutes: 0, arc: [0] }],
    pins: [
      { song: "0", block: 0, at: 0 },
      { song: "17", block: 0, at: -1 },
    ],
    standing: [],
    gapSeconds: 0,
    talkSeconds: 0,
  };
  const join = new Float64Array(18 * 18);
  for (const a of towns) for (const b of towns) join[a * 18 + b] = distance(town(a), town(b)) / 100;
  const compiled: Compiled = { ...compile(brief), join };
  const found = [1, 2].map((seed) => {
    const [order = []] = improve(compiled, [towns.map(String)], seed, ORDER_STEPS / 2);
    expect(order).toHaveLength(18);
    return lengthOf(order.map((id) => town(Number(id))));
  });
  expect(Math.min(...found)).toBe(OPTIMUM);
  for (const length of found) expect(length).toBeLessThanOrEqual(OPTIMUM * 1.02);
});
