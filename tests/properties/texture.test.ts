import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { PRESENCES } from "#shared/board/texture.ts";
import {
  couldWait,
  energyOf,
  hintsOf,
  jointsOf,
  noveltyOf,
  PRESENCE_LEVEL,
  type Texture,
} from "#shared/music/texture.ts";
import { laws } from "#tests/support/fuzz.ts";

const level = fc.constantFrom(...PRESENCES).map((presence) => PRESENCE_LEVEL[presence]);
const texture: fc.Arbitrary<Texture> = fc.integer({ min: 1, max: 7 }).chain((chairs) =>
  fc.record({
    weights: fc.array(fc.constantFrom(1, 1.2, 1.3, 1.4), { minLength: chairs, maxLength: chairs }),
    sections: fc.array(fc.array(level, { minLength: chairs, maxLength: chairs }), {
      minLength: 1,
      maxLength: 9,
    }),
  }),
);

test("a joint never lifts more than it changes, and both lie between 0 and 1", () => {
  fc.assert(
    fc.property(texture, (song) => {
      for (const { contrast, lift } of jointsOf(song)) {
        expect(Math.abs(lift)).toBeLessThanOrEqual(contrast + 1e-12);
        expect(contrast).toBeLessThanOrEqual(1 + 1e-12);
      }
      const rise = jointsOf(song).reduce((sum, { lift }) => sum + lift, 0);
      const [first = [], last = []] = [song.sections[0], song.sections.at(-1)];
      expect(rise).toBeCloseTo(energyOf(song.weights, last) - energyOf(song.weights, first), 9);
    }),
    laws(),
  );
});

test("equal sections change nothing, are as new as nothing, and scaling all weights changes no number", () => {
  fc.assert(
    fc.property(texture, fc.integer({ min: 2, max: 20 }), (song, bars) => {
      const same = { ...song, sections: Array.from({ length: bars }, () => song.sections[0] ?? []) };
      for (const { contrast } of jointsOf(same)) expect(contrast).toBe(0);
      expect(noveltyOf(same.weights, same.sections).every((n) => n === 0)).toBe(true);
      const doubled = song.weights.map((weight) => weight * 2);
      expect(jointsOf({ ...song, weights: doubled })).toEqual(jointsOf(song));
      expect(noveltyOf(doubled, song.sections)).toEqual(noveltyOf(song.weights, song.sections));
    }),
    laws(),
  );
});

test("a bar is newest where the texture turns, and as new as what changes there", () => {
  fc.assert(
    fc.property(texture, fc.integer({ min: 4, max: 12 }), ({ weights, sections }, half) => {
      const [before = [], after = before] = sections;
      const bars = [...Array(half).fill(before), ...Array(half).fill(after)];
      const novelty = noveltyOf(weights, bars);
      const change = jointsOf({ weights, sections: [before, after] })[0]?.contrast ?? 0;
      expect(novelty[half]).toBeCloseTo(change, 9);
      expect(Math.max(...novelty)).toBeCloseTo(change, 9);
    }),
    laws(),
  );
});

test("hints name sections that are there, and who could wait plays on both sides", () => {
  fc.assert(
    fc.property(texture, (song) => {
      const choruses = song.sections.flatMap((_, i) => (i % 3 === 2 ? [i] : []));
      for (const hint of hintsOf(song, choruses)) {
        if (hint.of === "one level") expect(hint.to - hint.from).toBeGreaterThanOrEqual(2);
        if (hint.of === "no lift" || hint.of === "last chorus") expect(choruses).toContain(hint.section);
      }
      for (let section = 1; section < song.sections.length; section += 1) {
        const chair = couldWait(song, section);
        if (chair === null) continue;
        expect(song.sections[section]?.[chair]).toBeGreaterThan(0);
        const rested = song.sections.map((levels, i) =>
          i === section - 1 ? levels.map((l, c) => (c === chair ? 0 : l)) : levels,
        );
        const lift = (of: Texture["sections"]) => jointsOf({ ...song, sections: of })[section - 1]?.lift ?? 0;
        expect(lift(rested)).toBeGreaterThan(lift(song.sections));
      }
    }),
    laws(),
  );
});

describe("a form as a listener hears it", () => {
  const weights = [1.4, 1.2, 1, 1.3];
  const full = [1, 1, 1, 1];
  const verse = [0.7, 0.7, 0, 0.7];

  test("a chorus that grows raises no question", () => {
    expect(hintsOf({ weights, sections: [verse, full, verse, full] }, [1, 3])).toEqual([]);
  });

  test("everybody full from the first bar on raises all of them", () => {
    const hints = hintsOf({ weights, sections: [full, full, full] }, [1]);
    expect(hints.map(({ of }) => of)).toEqual(["no lift", "one level", "all in", "narrow"]);
  });

  test("a last chorus below the first one is named with the bigger one", () => {
    const thin = [0.7, 0.7, 0.35, 1];
    expect(hintsOf({ weights, sections: [verse, full, verse, thin] }, [1, 3])).toEqual([
      { of: "last chorus", section: 3, bigger: 1 },
    ]);
  });
});
