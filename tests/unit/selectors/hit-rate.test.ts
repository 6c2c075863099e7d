import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { brier, hitRate, type Outcome, wilson } from "#shared/selectors/hit-rate.ts";
import { laws } from "#tests/support/fuzz.ts";

const outcome = (score: number, ready: boolean, clean: boolean): Outcome => ({
  gig: "g",
  song: "s",
  score,
  ready,
  clean,
});
const outcomes = fc.array(
  fc.record({
    gig: fc.constant("g"),
    song: fc.constant("s"),
    score: fc.double({ min: 0, max: 1, noNaN: true }),
    ready: fc.boolean(),
    clean: fc.boolean(),
  }),
  { maxLength: 40 },
);

// Newcombe, "Two-sided confidence intervals for the single proportion", Statistics in Medicine 17 (1998), table I, score
// method without correction (Wilson 1927); from memory.
test.each([
  [81, 263, 0.2553, 0.3662],
  [15, 148, 0.0624, 0.1605],
  [0, 20, 0, 0.1611],
  [1, 29, 0.0061, 0.1718],
])("%d of %d lie between %d and %d", (hits, of, low, high) => {
  const [from, to] = wilson(hits, of);
  expect(from).toBeCloseTo(low, 4);
  expect(to).toBeCloseTo(high, 4);
});

// Wilson (1927), equation 4: the bounds are the two rates p for which |hits/of - p| = z sqrt(p(1 - p)/of).
test("both ends of the interval lie z standard errors of their own from what was seen", () => {
  fc.assert(
    fc.property(fc.integer({ min: 2, max: 400 }), fc.nat(), (of, some) => {
      const hits = 1 + (some % (of - 1));
      for (const p of wilson(hits, of))
        expect(Math.abs(hits / of - p)).toBeCloseTo(1.959964 * Math.sqrt((p * (1 - p)) / of), 9);
    }),
    laws(),
  );
});

// Brier, Monthly Weather Review 78 (1950), in its form for one event: 70 % said and it rains, 0.09; from memory.
test("the mean squared miss", () => {
  expect(brier([outcome(0.7, true, true)])).toBeCloseTo(0.09, 12);
  expect(brier([outcome(0.3, true, true)])).toBeCloseTo(0.49, 12);
  expect(brier([outcome(0.5, true, true), outcome(0.5, true, false)])).toBe(0.25);
  expect(brier([])).toBe(0);
});

describe("the rate", () => {
  test("says plainly when there is nothing, and when there is too little", () => {
    expect(hitRate([outcome(0.4, false, true)]).sentence).toBe(
      "No song that was called ready has been logged at a gig yet.",
    );
    const three = [outcome(0.9, true, true), outcome(0.9, true, true), outcome(0.9, true, false)];
    expect(hitRate(three).sentence).toBe(
      "Of 3 songs called ready the day before, 2 ran clean. Too few to tell: 10 would be a start.",
    );
  });

  test("gives the rate with its interval from ten songs on", () => {
    const ten = Array.from({ length: 10 }, (_, i) => outcome(0.9, true, i < 8));
    // Wilson for 8 of 10: 0.490 to 0.943.
    expect(hitRate(ten).sentence).toBe(
      "Of 10 songs called ready the day before, 8 ran clean: 80 %, which may be anything from 49 to 94 %.",
    );
  });

  test("counts every song in one band, and stays within its bounds", () => {
    fc.assert(
      fc.property(outcomes, (list) => {
        const rate = hitRate(list);
        expect(rate.bands.reduce((sum, { songs }) => sum + songs, 0)).toBe(list.length);
        for (const { songs, clean } of rate.bands) expect(clean).toBeLessThanOrEqual(songs);
        expect(rate.clean).toBeLessThanOrEqual(rate.ready);
        expect(rate.brier).toBeGreaterThanOrEqual(0);
        expect(rate.brier).toBeLessThanOrEqual(1);
        const [low, high] = wilson(rate.clean, rate.ready);
        expect(low).toBeLessThanOrEqual(high);
      }),
      laws(),
    );
  });
});
