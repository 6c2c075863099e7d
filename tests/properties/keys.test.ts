import fc from "fast-check";
import { expect, test } from "vitest";
import {
  formatKey,
  keyWithSignature,
  parseKey,
  pitchClassOf,
  showKey,
  signatureOf,
} from "#shared/music/key.ts";
import { semitonesBetween, transposeKey } from "#shared/music/transpose.ts";
import { laws } from "#tests/support/fuzz.ts";

const mode = fc.constantFrom("major" as const, "minor" as const);
const key = fc.tuple(fc.integer({ min: -7, max: 7 }), mode).map(([n, m]) => keyWithSignature(n, m));
const semitones = fc.integer({ min: -40, max: 40 });

test("reading a key that was written gives the same key", () => {
  fc.assert(
    fc.property(key, (k) => {
      expect(parseKey(formatKey(k))).toEqual({ ok: true, value: k });
      expect(parseKey(showKey(k))).toEqual({ ok: true, value: k });
    }),
    laws(),
  );
});

test("transposing there and back sounds the same, and is spelled with at most six signs", () => {
  fc.assert(
    fc.property(key, semitones, (k, n) => {
      const moved = transposeKey(k, n);
      expect(pitchClassOf(moved)).toBe((pitchClassOf(k) + n + 120) % 12);
      expect(moved.mode).toBe(k.mode);
      expect(pitchClassOf(transposeKey(moved, -n))).toBe(pitchClassOf(k));
      if (n % 12 !== 0) expect(Math.abs(signatureOf(moved))).toBeLessThanOrEqual(6);
    }),
    laws(),
  );
});

test("transposing in two steps or in one gives the same key", () => {
  fc.assert(
    fc.property(key, semitones, semitones, (k, a, b) => {
      fc.pre(a % 12 !== 0 && b % 12 !== 0 && (a + b) % 12 !== 0);
      expect(transposeKey(transposeKey(k, a), b)).toEqual(transposeKey(k, a + b));
    }),
    laws(),
  );
});

test("the steps between two keys lead from one to the other", () => {
  fc.assert(
    fc.property(key, key, (a, b) => {
      const steps = semitonesBetween(a, b);
      expect(steps).toBeGreaterThanOrEqual(-5);
      expect(steps).toBeLessThanOrEqual(6);
      expect(pitchClassOf(transposeKey(a, steps))).toBe(pitchClassOf(b));
    }),
    laws(),
  );
});

test("any text is read or refused, and never throws", () => {
  fc.assert(
    fc.property(fc.string({ unit: "binary" }), (text) => {
      const read = parseKey(text);
      if (!read.ok) expect(read.error).toMatch(/\.$/);
    }),
    laws(),
  );
});
