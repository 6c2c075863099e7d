import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { PRESENCES, type TextureChange, type TextureChanges } from "#shared/board/texture.ts";
import { PRESENCE_LEVEL } from "#shared/music/texture.ts";
import {
  changesFrom,
  EVERY_PASS,
  joinedChanges,
  ownPasses,
  presenceAt,
  soundsAlike,
  stretchesOf,
  wholeSection,
  withChange,
  withoutChange,
} from "#shared/music/texture-changes.ts";
import { mergedParts } from "#shared/selectors/textures/cover.ts";
import type { PaintedPart, Picture } from "#shared/selectors/textures/picture.ts";
import { laws } from "#tests/support/fuzz.ts";

const change: fc.Arbitrary<TextureChange> = fc.record({
  bar: fc.integer({ min: 1, max: 12 }),
  pass: fc.option(fc.integer({ min: 1, max: 3 })),
  presence: fc.constantFrom(...PRESENCES),
});
const changes: fc.Arbitrary<TextureChanges> = fc.array(change, { maxLength: 6 });
const bars = fc.integer({ min: 1, max: 12 });
const EVERY = [EVERY_PASS, 1, 2, 3];
const upTo = (n: number): readonly number[] => Array.from({ length: n }, (_, i) => i + 1);

describe("what is said of a section and a chair", () => {
  test("stretches fill a pass without a gap, neighbours differ, and each bar reads as it does alone", () => {
    fc.assert(
      fc.property(changes, bars, fc.constantFrom(...EVERY), (said, length, pass) => {
        const stretches = stretchesOf(said, length, pass);
        expect(stretches.flatMap(({ bar, bars: n }) => upTo(n).map((i) => bar + i - 1))).toEqual(
          said.length === 0 ? [] : upTo(length),
        );
        stretches.forEach(({ bar, bars: n, presence }, i) => {
          expect(presence).not.toBe(stretches[i - 1]?.presence);
          for (const at of upTo(n)) expect(presenceAt(said, bar + at - 1, pass)).toBe(presence);
        });
      }),
      laws(),
    );
  });

  test("a new entry holds from its bar on until the next of its pass, and touches nothing before it", () => {
    fc.assert(
      fc.property(changes, change, (said, added) => {
        const now = withChange(said, added);
        const pass = added.pass ?? EVERY_PASS;
        expect(presenceAt(now, added.bar, pass)).toBe(added.presence);
        if (said.length > 0)
          for (const bar of upTo(added.bar - 1))
            expect(presenceAt(now, bar, pass)).toBe(presenceAt(said, bar, pass));
        for (const other of ownPasses(said).filter((one) => added.pass !== null && one !== added.pass))
          expect(presenceAt(now, added.bar, other)).toBe(presenceAt(said, added.bar, other));
        expect(withoutChange(now, added)).not.toContainEqual(added);
      }),
      laws(),
    );
  });

  test("one presence for a whole section is the same in every bar of every pass; nothing said is not known", () => {
    for (const presence of PRESENCES)
      for (const bar of [1, 7, 999])
        for (const pass of EVERY) expect(presenceAt(wholeSection(presence), bar, pass)).toBe(presence);
    expect(presenceAt(wholeSection(null), 1, 1)).toBeNull();
  });

  test("reads alike as itself, in whichever order it was written", () => {
    fc.assert(
      fc.property(
        fc.uniqueArray(change, { maxLength: 6, selector: ({ bar, pass }) => `${bar} ${pass}` }),
        bars,
        (said, length) => {
          expect(soundsAlike(said, [...said].reverse(), length)).toBe(true);
        },
      ),
      laws(),
    );
  });
});

const part = (chair: string, said: TextureChanges): PaintedPart => ({
  chair,
  name: chair,
  short: chair,
  instrument: "guitar",
  weight: 1,
  cells: [{ changes: said, from: said.length === 0 ? null : "ours" }],
});
const pictureOver = (length: number): Picture => ({
  sections: [{ id: "v", name: "Verse", bars: length, passes: 3 }],
  parts: [],
});

test("one player on two parts plays the fuller of both in every bar, and both is where both play", () => {
  fc.assert(
    fc.property(changes, changes, bars, (a, b, length) => {
      const [merged] = mergedParts(pictureOver(length), part("a", a), part("b", b));
      const [swapped] = mergedParts(pictureOver(length), part("b", b), part("a", a));
      let both = false;
      if (a.length + b.length > 0)
        for (const pass of EVERY)
          for (const bar of upTo(length)) {
            const [one, two] = [a, b].map((said) => PRESENCE_LEVEL[presenceAt(said, bar, pass) ?? "rest"]);
            const together = presenceAt(merged?.changes ?? [], bar, pass);
            expect(PRESENCE_LEVEL[together ?? "rest"]).toBe(Math.max(one ?? 0, two ?? 0));
            both ||= (one ?? 0) > 0 && (two ?? 0) > 0;
          }
      expect(merged?.both).toBe(both);
      expect(swapped).toEqual(merged);
    }),
    laws(),
  );
});

describe("who plays when in sections that are cut and joined", () => {
  test("each half of a section that is cut sounds as it did, in every pass", () => {
    fc.assert(
      fc.property(changes, fc.integer({ min: 2, max: 12 }), (said, at) => {
        const second = changesFrom(said, at, 12 - at + 1);
        for (const pass of EVERY)
          for (const bar of upTo(12 - at + 1))
            expect(presenceAt(second, bar, pass)).toBe(presenceAt(said, at + bar - 1, pass));
      }),
      laws(),
    );
  });

  test("two painted sections sound as one as they did as two, in every pass", () => {
    const painted = changes.filter((said) => said.length > 0);
    fc.assert(
      fc.property(painted, painted, bars, bars, (first, next, here, there) => {
        const joined = joinedChanges({ changes: first, bars: here }, { changes: next, bars: there });
        for (const pass of EVERY) {
          for (const bar of upTo(here))
            expect(presenceAt(joined, bar, pass)).toBe(presenceAt(first, bar, pass));
          for (const bar of upTo(there))
            expect(presenceAt(joined, here + bar, pass)).toBe(presenceAt(next, bar, pass));
        }
      }),
      laws(),
    );
  });

  test("beside one that is not painted nothing painted changes, and nothing changes where they meet", () => {
    fc.assert(
      fc.property(changes, bars, bars, fc.constantFrom(...EVERY), (said, here, there, pass) => {
        const before = joinedChanges({ changes: [], bars: here }, { changes: said, bars: there });
        const behind = joinedChanges({ changes: said, bars: here }, { changes: [], bars: there });
        for (const bar of upTo(there))
          expect(presenceAt(before, here + bar, pass)).toBe(presenceAt(said, bar, pass));
        for (const bar of upTo(here)) expect(presenceAt(behind, bar, pass)).toBe(presenceAt(said, bar, pass));
        for (const bar of upTo(here)) expect(presenceAt(before, bar, pass)).toBe(presenceAt(said, 1, pass));
        for (const bar of upTo(there))
          expect(presenceAt(behind, here + bar, pass)).toBe(presenceAt(said, here, pass));
      }),
      laws(),
    );
  });
});
