import fc from "fast-check";
import { expect, test } from "vitest";
import {
  dose, eightHourLevel, guideMinutes, LEVEL_LEAST, LEVEL_MOST, minutesLeft, stretchFault,
} from "#shared/music/loudness.ts"; // biome-ignore format: by theme
import { keepStretches, readSound, readStretches } from "#shared/selectors/sound-evening.ts";

const RUNS = { numRuns: 1000 };
const level = fc.double({ min: LEVEL_LEAST, max: LEVEL_MOST, noNaN: true });
const minutes = fc.double({ min: 0.1, max: 480, noNaN: true });
const stretches = fc.array(fc.record({ level, minutes }), { maxLength: 8 });
const near = (a: number, b: number): void => {
  expect(Math.abs(a - b)).toBeLessThanOrEqual(1e-9 * Math.max(1, a, b));
};

test("3 dB more is half the time, whatever the level", () => {
  fc.assert(
    fc.property(level, (at) => near(guideMinutes(at + 3) * 2, guideMinutes(at))),
    RUNS,
  );
});

test("stretches add up in any order, and one cut in two is the same", () => {
  fc.assert(
    fc.property(stretches, level, minutes, (others, at, long) => {
      const whole = dose([...others, { level: at, minutes: long }]);
      near(whole, dose([{ level: at, minutes: long }, ...[...others].reverse()]));
      near(
        whole,
        dose([...others, { level: at, minutes: long / 4 }, { level: at, minutes: (3 * long) / 4 }]),
      );
      expect(whole).toBeGreaterThan(dose(others));
    }),
    RUNS,
  );
});

test("what is left at a level uses the guide up exactly, and nothing is left beyond it", () => {
  fc.assert(
    fc.property(stretches, level, (before, at) => {
      const share = dose(before);
      const left = minutesLeft(share, at);
      if (share >= 1) expect(left).toBe(0);
      else near(share + dose([{ level: at, minutes: left }]), 1);
    }),
    RUNS,
  );
});

test("twice the share is 3.01 dB more over eight hours", () => {
  fc.assert(
    fc.property(stretches, (all) => {
      const share = dose(all);
      const steady = eightHourLevel(share);
      if (steady === null) expect(share).toBe(0);
      else near(eightHourLevel(2 * share) ?? 0, steady + 10 * Math.log10(2));
    }),
    RUNS,
  );
});

test("a device reads back what it kept, on that day only, and nothing from anything else", () => {
  fc.assert(
    fc.property(stretches, fc.string(), (all, noise) => {
      const kept = keepStretches(all, "2026-03-14");
      expect(readStretches(kept, "2026-03-14")).toEqual(JSON.parse(JSON.stringify(all)));
      expect(readStretches(kept, "2026-03-15")).toEqual([]);
      expect(readStretches(noise, "2026-03-14")).toEqual([]);
    }),
    RUNS,
  );
});

test("whatever is added says what it comes to, or in one sentence why not", () => {
  const any = fc.option(fc.double(), { nil: null });
  fc.assert(
    fc.property(any, any, stretches, (at, long, before) => {
      const fault = stretchFault(at, long, before);
      if (fault !== null) expect(fault.sentence).toMatch(/^[A-Z].*\.$/);
      else
        expect(readSound([{ level: at ?? 0, minutes: long ?? 0 }])?.sentence).toMatch(/ % of what the guide/);
    }),
    RUNS,
  );
});
