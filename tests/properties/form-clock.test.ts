import fc from "fast-check";
import { expect, test } from "vitest";
import { type ClockStretch, formSeconds, momentAt, secondsAt } from "#shared/music/form-clock.ts";
import { laws } from "#tests/support/fuzz.ts";

const form: fc.Arbitrary<readonly ClockStretch[]> = fc
  .array(
    fc.record({
      bars: fc.integer({ min: 1, max: 32 }),
      repeats: fc.integer({ min: 1, max: 4 }),
      beats: fc.integer({ min: 1, max: 12 }),
      beatSeconds: fc.constantFrom(60 / 20, 60 / 54, 60 / 112, 60 / 168, 60 / 400, 0.3571),
    }),
    { minLength: 1, maxLength: 12 },
  )
  .map((stretches) => stretches.map((stretch, i) => ({ section: `s${i}`, ...stretch })));

test("what is said of a moment leads back to it, within its own beat", () => {
  fc.assert(
    fc.property(form, fc.double({ min: 0, max: 1, noNaN: true }), (stretches, share) => {
      const seconds = formSeconds(stretches) * share;
      const moment = momentAt(stretches, seconds);
      if (moment === null) {
        expect(seconds).toBeGreaterThan(formSeconds(stretches) - 1e-5);
        return;
      }
      const start = secondsAt(stretches, moment) ?? Number.NaN;
      const beat = stretches.find(({ section }) => section === moment.section)?.beatSeconds ?? 0;
      expect(seconds - start).toBeGreaterThan(-1e-5);
      expect(seconds - start).toBeLessThan(beat + 1e-5);
    }),
    laws(),
  );
});

test("every beat of a form is found at the second it begins", () => {
  fc.assert(
    fc.property(form, fc.nat(), fc.nat(), fc.nat(), fc.nat(), (stretches, a, b, c, d) => {
      const stretch = stretches[a % stretches.length] as ClockStretch;
      const moment = {
        section: stretch.section,
        pass: (b % stretch.repeats) + 1,
        bar: (c % stretch.bars) + 1,
        beat: (d % stretch.beats) + 1,
      };
      expect(momentAt(stretches, secondsAt(stretches, moment) ?? -1)).toEqual(moment);
    }),
    laws(),
  );
});

test("before the form and after it there is no place", () => {
  fc.assert(
    fc.property(form, fc.double({ min: 0.001, max: 1000, noNaN: true }), (stretches, far) => {
      expect(momentAt(stretches, -far)).toBeNull();
      expect(momentAt(stretches, formSeconds(stretches) + far)).toBeNull();
    }),
    laws(),
  );
});
