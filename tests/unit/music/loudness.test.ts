import { expect, test } from "vitest";
import { guideMinutes } from "#shared/music/loudness.ts";

// NIOSH, Criteria for a Recommended Standard: Occupational Noise Exposure, publication 98-126 (1998), table 1-1.
test.each([
  [85, 480],
  [88, 240],
  [91, 120],
  [94, 60],
  [97, 30],
  [100, 15],
])("%s dB(A) fill the guide in %s minutes", (level, minutes) => {
  expect(guideMinutes(level)).toBeCloseTo(minutes, 6);
});
