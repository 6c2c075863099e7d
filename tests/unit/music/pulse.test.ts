import fc from "fast-check";
import { expect, test } from "vitest";
import { beatsPerBar, parseMetre } from "#shared/music/metre.ts";
import { FLASHES_MOST, pulseOf } from "#shared/music/pulse.ts";
import { TEMPO_MAX, TEMPO_MIN } from "#shared/music/tempo.ts";

test("a pulse on every beat up to 180, on halves above, on whole bars where a bar has no half", () => {
  expect(pulseOf(120, "4/4")).toEqual({ beats: 1, ms: 500 });
  expect(pulseOf(180, "4/4").beats).toBe(1);
  expect(pulseOf(181, "4/4").beats).toBe(2);
  expect(pulseOf(200, "3/4").beats).toBe(3);
  expect(pulseOf(400, "4/4").beats).toBe(4);
  expect(pulseOf(300, "1/4").beats).toBe(2);
});

// WCAG 2.2, success criterion 2.3.1 "Three Flashes or Below Threshold".
test("[STAGE-3] never more than three a second, and never rarer than the beat allows", () => {
  const metres = fc.constantFrom(
    "4/4",
    "3/4",
    "2/4",
    "6/8",
    "12/8",
    "5/4",
    "7/8",
    "3+2+2/8",
    "1/4",
    "",
    "odd",
  );
  fc.assert(
    fc.property(fc.double({ min: TEMPO_MIN, max: TEMPO_MAX, noNaN: true }), metres, (bpm, metre) => {
      const { beats, ms } = pulseOf(bpm, metre);
      const read = parseMetre(metre);
      const bar = read.ok ? beatsPerBar(read.value) : 4;
      expect(1000 / ms).toBeLessThanOrEqual(FLASHES_MOST + 1e-9);
      expect(bar % beats === 0 || beats % bar === 0).toBe(true);
      if (bpm <= 180) expect(beats).toBe(1);
    }),
    { numRuns: 2000 },
  );
});
