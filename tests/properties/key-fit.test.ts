import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { isMelody, isVoice, type SongMelody, type Voice } from "#shared/board/voice.ts";
import { keyWithSignature, pitchClassOf } from "#shared/music/key.ts";
import { type Melody, melodyFromTimes, melodyOf, rangeOf, sungMelody } from "#shared/music/key-fit/melody.ts";
import { characterCost, type KeyQuestion, rankKeys } from "#shared/music/key-fit/rank-keys.ts";
import { overBy, remediesFor } from "#shared/music/key-fit/tonight.ts";
import { checkVoice, tessituraShift, voiceTerms } from "#shared/music/key-fit/voice.ts";
import { noteName, parseNote } from "#shared/music/note-name.ts";
import { laws } from "#tests/support/fuzz.ts";

const value = <T>(result: { readonly ok: true; readonly value: T } | { readonly ok: false }): T => {
  if (!result.ok) throw new Error("refused");
  return result.value;
};

const melody: fc.Arbitrary<Melody> = fc
  .array(fc.tuple(fc.integer({ min: 48, max: 76 }), fc.integer({ min: 1, max: 9 })), {
    minLength: 1,
    maxLength: 12,
  })
  .map((times) => value(melodyFromTimes(new Map(times))));

const voice: fc.Arbitrary<Voice> = fc
  .tuple(fc.integer({ min: 42, max: 58 }), fc.nat(5), fc.integer({ min: 5, max: 16 }), fc.nat(6))
  .map(([lowest, low, width, high]) => ({
    lowest,
    comfortLow: lowest + low,
    comfortHigh: lowest + low + width,
    highest: lowest + low + width + high,
  }));

const key = fc
  .tuple(fc.integer({ min: -6, max: 6 }), fc.constantFrom("major" as const, "minor" as const))
  .map(([signature, mode]) => keyWithSignature(signature, mode));

const question: fc.Arbitrary<KeyQuestion> = fc.record({
  melody,
  voice,
  key,
  recordUp: fc.constantFrom(0, 0, 2, -5),
  hands: fc.record({
    matters: fc.constantFrom("no" as const, "nice" as const, "essential" as const),
    tuning: fc.constantFrom(0, -1, -2),
    capo: fc.nat(5),
    openLow: fc.boolean(),
  }),
  tunings: fc.constant([0, -1, -2]),
  usual: fc.constantFrom(0, -1),
  capoMax: fc.constant(7),
});

test("a melody's shares sum to 1, from three notes and from times, and stay within them", () => {
  const three = fc
    .tuple(fc.integer({ min: 40, max: 70 }), fc.nat(12), fc.nat(12))
    .map(([low, up, more]) => ({ low, typical: low + up, high: low + up + more }));
  fc.assert(
    fc.property(three, (notes) => {
      const shares = value(melodyOf(notes));
      expect([...shares.values()].reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 12);
      const { low, high } = rangeOf(shares);
      expect(low).toBeGreaterThanOrEqual(notes.low);
      expect(high).toBeLessThanOrEqual(notes.high);
    }),
    laws(),
  );
});

test("what a board takes for a voice or a melody can be counted with, whatever a device wrote", () => {
  const pitch = fc.oneof(
    { weight: 5, arbitrary: fc.integer({ min: -1, max: 130 }) },
    fc.constantFrom(60.5, null, "A4"),
  );
  const share = fc.constantFrom(0, -1, 0.5, 12, 3, 40, Number.NaN, Number.POSITIVE_INFINITY, null);
  const notes = fc.oneof(
    fc.record({ lowest: pitch, comfortLow: pitch, comfortHigh: pitch, highest: pitch }),
    fc.record({ key: fc.constantFrom("E", "", null), low: pitch, typical: pitch, high: pitch }),
    fc.record({
      key: fc.constant("E"),
      histogram: fc.oneof(
        fc.array(fc.tuple(pitch, share), { maxLength: 3 }),
        fc.constantFrom<unknown>("abc", {}, [[]], [null]),
      ),
    }),
    fc.anything(),
  );
  let counted = 0;
  fc.assert(
    fc.property(notes, (written) => {
      if (isVoice(written)) expect(checkVoice(written as Voice).ok).toBe(true);
      if (!isMelody(written)) return;
      counted += 1;
      const sung = value(sungMelody(written as SongMelody));
      expect([...sung.values()].reduce((sum, time) => sum + time, 0)).toBeCloseTo(1, 9);
    }),
    laws(),
  );
  expect(counted).toBeGreaterThan(0);
});

test("what cannot be is refused in words", () => {
  expect(melodyOf({ low: 60, typical: 59, high: 70 }).ok).toBe(false);
  expect(melodyFromTimes(new Map([[60, 0]])).ok).toBe(false);
  expect(checkVoice({ lowest: 50, comfortLow: 60, comfortHigh: 60, highest: 70 }).ok).toBe(false);
  expect(checkVoice({ lowest: 50, comfortLow: 49, comfortHigh: 60, highest: 70 }).ok).toBe(false);
  for (const text of ["", "H4", "A", "A44", "C10", "Cb-1"]) expect(parseNote(text).ok, text).toBe(false);
});

test("a note that was named in any key is read as the same pitch", () => {
  fc.assert(
    fc.property(fc.integer({ min: 24, max: 119 }), key, (pitch, at) => {
      const name = noteName(pitch, at);
      if (!/♭♭|♯♯/.test(name)) expect(parseNote(name)).toEqual({ ok: true, value: pitch });
    }),
    laws(),
  );
});

describe("voice", () => {
  test("no term is below 0, and a higher limit costs no more", () => {
    fc.assert(
      fc.property(melody, voice, fc.integer({ min: -6, max: 6 }), (song, singer, up) => {
        const terms = voiceTerms(song, singer, up);
        for (const term of Object.values(terms)) expect(term).toBeGreaterThanOrEqual(0);
        const stronger = voiceTerms(song, { ...singer, highest: singer.highest + 2 }, up);
        expect(stronger.out).toBeLessThanOrEqual(terms.out + 1e-12);
        expect(stronger.high).toBeLessThanOrEqual(terms.high + 1e-12);
      }),
      laws(),
    );
  });

  test("transposing moves the tessitura shift by the same semitones", () => {
    fc.assert(
      fc.property(melody, voice, fc.integer({ min: -12, max: 12 }), (song, singer, up) => {
        expect(tessituraShift(song, singer, up)).toBeCloseTo(tessituraShift(song, singer) + up, 12);
      }),
      laws(),
    );
  });
});

test("a key farther away costs no less character, up or down", () => {
  for (const side of [-1, 1])
    for (let far = 1; far < 7; far += 1)
      expect(characterCost(side * far)).toBeGreaterThanOrEqual(characterCost(side * (far - 1)));
});

test("the ranking is in order, its terms sum to the cost, and no tuning or capo it was offered does better", () => {
  fc.assert(
    fc.property(question, (asked) => {
      const ranked = rankKeys(asked);
      expect(ranked).toHaveLength(5);
      ranked.forEach((choice, i) => {
        const sum = Object.values(choice.terms).reduce((total, term) => total + term, 0);
        expect(sum).toBeCloseTo(choice.cost, 12);
        expect(choice.cost).toBeGreaterThanOrEqual(ranked[i - 1]?.cost ?? 0);
        expect((pitchClassOf(asked.key) + choice.up + 120) % 12).toBe(pitchClassOf(choice.key));
        // The two best stand for the rest, which are found the same way.
        if (i > 1) return;
        const one = rankKeys({ ...asked, tunings: [choice.tuning], capoMax: choice.capo });
        const same = one.find(({ up }) => up === choice.up);
        if (same !== undefined) expect(same.cost).toBeGreaterThanOrEqual(choice.cost - 1e-12);
      });
    }),
    laws(),
  );
});

test("a remedy brings the song under tonight's top, and a song that fits needs none", () => {
  fc.assert(
    fc.property(
      melody,
      fc.nat(3),
      fc.boolean(),
      fc.integer({ min: 55, max: 80 }),
      (song, lift, given, top) => {
        const asked = { melody: song, lift, lineCanBeGiven: given };
        const remedies = remediesFor(asked, top);
        expect(remedies.length === 0).toBe(overBy(asked, top) <= 0);
        for (const remedy of remedies) {
          if (remedy.of === "skip lift") expect(rangeOf(song).high).toBeLessThanOrEqual(top);
          if (remedy.of === "lower") {
            expect(remedy.semitones).toBeLessThanOrEqual(3);
            const sung = rangeOf(song).high - remedy.semitones + (remedy.skipLift ? 0 : lift);
            expect(sung).toBeLessThanOrEqual(top);
          }
        }
        if (remedies.length > 0) expect(remedies.at(-1)).toEqual({ of: "swap" });
      },
    ),
    laws(),
  );
});
