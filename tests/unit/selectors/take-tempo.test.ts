import { expect, test } from "vitest";
import { besideTarget, driftWords, feltWords, tempoWords } from "#shared/selectors/take-tempo.ts";

test.each([
  [115, 112, "2.7 % over 112"],
  [110, 112, "1.8 % under 112"],
  [112, 112, "right on 112"],
  [112, null, ""],
])("%s beside a target of %s reads %j", (tempo, target, words) => {
  expect(besideTarget(tempo, target)).toBe(words);
});

test("drift is told only where both ends were measured", () => {
  expect(driftWords(112, 115)).toBe("2.7 % faster from start to end");
  expect(driftWords(54, 53)).toBe("1.9 % slower from start to end");
  expect(driftWords(94, 94)).toBe("steady from start to end");
  expect(driftWords(94, null)).toBe("");
});

// Common practice, no published source: up to 2 % goes unnoticed, over 4 % dancers feel it.
test.each([
  [0, "hardly noticed"],
  [-2, "hardly noticed"],
  [2.1, "players feel it"],
  [4, "players feel it"],
  [-4.1, "dancers feel it"],
])("a difference of %s percent: %s", (percent, words) => {
  expect(feltWords(percent)).toBe(words);
});

test("one line says both ends, the target and the drift", () => {
  expect(tempoWords(112, 118, 112)).toBe(
    "112 at the start, right on 112; 118 at the end, 5.4 % over 112: 5.4 % faster from start to end, dancers feel it",
  );
  expect(tempoWords(null, 118, null)).toBe("118 at the end");
  expect(tempoWords(null, null, 112)).toBe("");
});
