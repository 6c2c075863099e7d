import { expect, test } from "vitest";
import { formatLength, parseLength } from "#shared/music/duration.ts";
import { formatMetre, parseMetre } from "#shared/music/metre.ts";
import { checkTempo, driftPercent, parseTempo } from "#shared/music/tempo.ts";

const outcome = <T>(result: { ok: true; value: T } | { ok: false; error: string }): T | string =>
  result.ok ? result.value : result.error;

test("tempos are read as people type them", () => {
  expect(
    ["112", " 112.5 ", "112,5", "112 bpm", "112BPM", "♩ = 94"].map((t) => outcome(parseTempo(t))),
  ).toEqual([112, 112.5, 112.5, 112, 112, 94]);
});

test("tempos nobody can count are refused with the range", () => {
  expect(outcome(parseTempo("0"))).toBe(
    "A tempo of 0 cannot be counted. Give beats per minute as a number from 20 to 400.",
  );
  for (const wrong of ["-3", "19.9", "401", "999999999", "fast", "", "1e3", "120/4", "NaN"]) {
    expect(outcome(parseTempo(wrong)), wrong).toMatch(/number from 20 to 400\.$/);
  }
  expect(checkTempo(Number.NaN).ok).toBe(false);
  expect([checkTempo(20).ok, checkTempo(400).ok]).toEqual([true, true]);
});

test("drift is a share of the tempo the take began with", () => {
  expect(driftPercent(172, 181)).toBeCloseTo(5.2326, 4);
  expect(driftPercent(100, 94)).toBeCloseTo(-6, 10);
});

const lengths: readonly (readonly [string, number])[] = [
  ["3:45", 225],
  ["0:45", 45],
  ["0:03:45", 225],
  ["225", 225],
  ["3m45s", 225],
  ["3 min 45", 225],
  ["3'45\"", 225],
  ["4m", 240],
  ["PT3M45S", 225],
  ["1:00:00", 3600],
];

test.each(lengths)("a length of %s is %d seconds", (text, seconds) => {
  expect(outcome(parseLength(text))).toBe(seconds);
});

test("lengths that could mean two things or nothing are refused with a way to write them", () => {
  expect(outcome(parseLength("3.45"))).toBe('"3.45" is not a length. Did you mean 3:45?');
  expect(outcome(parseLength("03:45:00"))).toBe(
    '"03:45:00" is longer than an hour. Write minutes and seconds as 3:45.',
  );
  for (const wrong of ["", "0", "0:00", "-3:45", "3:75", "3:5", "long", "9".repeat(10_000)]) {
    expect(outcome(parseLength(wrong)), wrong.slice(0, 9)).toMatch(/as 3:45\.$/);
  }
});

test("every length up to an hour is read back as it was written", () => {
  for (let seconds = 1; seconds <= 3600; seconds += 1) {
    expect(outcome(parseLength(formatLength(seconds)))).toBe(seconds);
  }
});

test("metres are read, written back and refused", () => {
  for (const text of ["4/4", "6/8", "12/8", "3+2+2/8", "7/16"]) {
    const metre = parseMetre(text);
    expect(metre.ok && formatMetre(metre.value)).toBe(text);
  }
  for (const wrong of ["", "4", "4/3", "0/4", "3+0/8", "4/4/4", "common"]) {
    expect(outcome(parseMetre(wrong)), wrong).toMatch(/Write it as 4\/4/);
  }
});
