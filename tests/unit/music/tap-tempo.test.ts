import fc from "fast-check";
import { expect, test } from "vitest";
import { currentTaps, tempoFromTaps } from "#shared/music/tap-tempo.ts";
import { laws } from "#tests/support/fuzz.ts";

const steady = (bpm: number, taps: number, start = 1000): readonly number[] =>
  Array.from({ length: taps }, (_, index) => start + (index * 60_000) / bpm);

test("four steady taps give the tempo, three give none", () => {
  expect(tempoFromTaps(steady(112, 4))).toBeCloseTo(112, 6);
  expect(tempoFromTaps(steady(112, 3))).toBeNull();
  expect(tempoFromTaps([])).toBeNull();
});

test("a silence of more than two seconds starts a new count", () => {
  const before = steady(90, 8);
  const after = steady(140, 4, (before.at(-1) ?? 0) + 2001);
  expect(tempoFromTaps([...before, ...after])).toBeCloseTo(140, 6);
  expect(tempoFromTaps([...before, ...after.slice(0, 3)])).toBeNull();
  expect(currentTaps([...before, ...after])).toEqual(after);
  expect(currentTaps([0, 2000])).toEqual([0, 2000]);
});

test("taps too fast to be a tempo give none", () => {
  expect(tempoFromTaps([0, 1, 2, 3, 4])).toBeNull();
  expect(tempoFromTaps([5, 5, 5, 5])).toBeNull();
});

test("one missed tap changes nothing", () => {
  fc.assert(
    fc.property(
      fc.integer({ min: 62, max: 300 }),
      fc.integer({ min: 5, max: 16 }),
      fc.nat(),
      (bpm, count, pick) => {
        const taps = steady(bpm, count);
        const missed = 1 + (pick % (count - 2));
        expect(tempoFromTaps(taps.filter((_, index) => index !== missed))).toBeCloseTo(bpm, 6);
      },
    ),
    laws(),
  );
});

test("one doubled tap changes nothing", () => {
  const share = fc.double({ min: 0.05, max: 0.7, noNaN: true });
  fc.assert(
    fc.property(
      fc.integer({ min: 40, max: 300 }),
      fc.integer({ min: 6, max: 16 }),
      fc.nat(),
      share,
      (bpm, n, pick, s) => {
        const taps = steady(bpm, n);
        const at = pick % (n - 1);
        const doubled = [...taps, (taps[at] ?? 0) + (s * 60_000) / bpm].sort((a, b) => a - b);
        expect(tempoFromTaps(doubled)).toBeCloseTo(bpm, 6);
      },
    ),
    laws(),
  );
});

test("eight taps by a hand that wavers by 15 ms stay within 2 %", () => {
  const wobble = fc.array(fc.integer({ min: -15, max: 15 }), { minLength: 8, maxLength: 8 });
  fc.assert(
    fc.property(fc.integer({ min: 60, max: 180 }), wobble, (bpm, offsets) => {
      const taps = steady(bpm, 8).map((time, index) => time + (offsets[index] ?? 0));
      expect(Math.abs((tempoFromTaps(taps) ?? 0) / bpm - 1)).toBeLessThan(0.02);
    }),
    laws(),
  );
});
