import { expect, test } from "vitest";
import { readSound, timeWords } from "#shared/selectors/sound-evening.ts";

test("a quiet start says how long it may go on", () => {
  expect(readSound([{ level: 100, minutes: 5 }])).toEqual({
    share: expect.closeTo(1 / 3, 9),
    sentence: "33 % of what the guide allows in a day, as much as 80.2 dB(A) all through eight hours.",
    goesOn: "At 100 dB(A) it is used up after 10 minutes more.",
  });
});

test("a level that cannot use it up today lasts", () => {
  expect(readSound([{ level: 70, minutes: 60 }])?.goesOn).toBe(
    "At 70 dB(A) it lasts for the rest of the day.",
  );
});

test("a guide that is used up says to rest", () => {
  const reading = readSound([{ level: 100, minutes: 15 }]);
  expect(reading?.sentence).toBe(
    "100 % of what the guide allows in a day, as much as 85.0 dB(A) all through eight hours.",
  );
  expect(reading?.goesOn).toMatch(/^The day's guide is used up/);
});

test("nothing counted is no reading", () => {
  expect(readSound([])).toBeNull();
});

test.each([
  [0.4, "under 1 minute"],
  [1, "1 minute"],
  [89.9, "89 minutes"],
  [120, "2 h"],
  [155, "2 h 35 min"],
])("%s minutes are said as %s", (minutes, words) => {
  expect(timeWords(minutes)).toBe(words);
});
