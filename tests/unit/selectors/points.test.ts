import fc from "fast-check";
import { expect, test } from "vitest";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { apportion, pointsOf, SPLIT_PARTS, signedPoints, splitPoints } from "#shared/selectors/points.ts";
import { laws } from "#tests/support/fuzz.ts";
import { history } from "#tests/support/histories.ts";

test("a share reads as whole points", () => {
  expect([0, 0.004, 0.005, 0.564, 1].map(pointsOf)).toEqual([0, 0, 1, 56, 100]);
});

test("a difference carries its sign, and what rounds to nothing still says its direction", () => {
  expect(signedPoints(0.164)).toBe("+16");
  expect(signedPoints(-0.03)).toBe("−3");
  expect(signedPoints(0.002)).toBe("under 1");
  expect(signedPoints(-0.002)).toBe("under 1 less");
  expect(signedPoints(0)).toBe("0");
});

// The usual textbook example of the largest remainder method with the Hare quota: 100,000 votes for six lists,
// ten seats (from memory).
test("seats go by the largest remainder as in the textbook example", () => {
  expect(apportion([47_000, 16_000, 15_900, 12_000, 6_000, 3_100], 10)).toEqual([5, 2, 1, 1, 1, 0]);
});

// The Alabama paradox is known of this method: with populations 6 : 6 : 2 the small state has two of ten seats and
// one of eleven (textbook example, from memory).
test("it has the method's known paradox, so it is that method", () => {
  expect(apportion([6, 6, 2], 10)).toEqual([4, 4, 2]);
  expect(apportion([6, 6, 2], 11)).toEqual([5, 5, 1]);
});

test("points always add up, and none is a whole point away from its exact share", () => {
  const shares = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 9 });
  fc.assert(
    fc.property(shares, fc.nat(200), (given, total) => {
      const points = apportion(given, total);
      const sum = given.reduce((all, share) => all + share, 0);
      fc.pre(sum > 1e-9);
      expect(points.reduce((all, point) => all + point, 0)).toBe(total);
      points.forEach((point, i) => {
        expect(Math.abs(point - ((given[i] ?? 0) / sum) * total)).toBeLessThan(1 + 1e-6);
      });
    }),
    laws(),
  );
});

test("a split in points adds up to 100, and what counts in it to the score shown", () => {
  fc.assert(
    fc.property(history, (input) => {
      const score = scoreSong(input);
      const points = splitPoints(score.split);
      expect(SPLIT_PARTS.reduce((all, part) => all + points[part], 0)).toBe(100);
      expect(points.said + points.shown).toBe(pointsOf(score.split.said + score.split.shown));
    }),
    laws(),
  );
});
