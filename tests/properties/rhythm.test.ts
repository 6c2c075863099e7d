import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compareBars } from "#shared/music/rhythm/difference.ts";
import { chronotonicDistance, swapDistance } from "#shared/music/rhythm/distance.ts";
import { interlock, pushes } from "#shared/music/rhythm/interlock.ts";
import { density, gaps, mod, type Pattern, rotated } from "#shared/music/rhythm/pattern.ts";
import { heldOver, noteToBeatDistance } from "#shared/music/rhythm/syncopation.ts";
import { laws } from "#tests/support/fuzz.ts";

const barOf = (steps: number): fc.Arbitrary<Pattern> =>
  fc.subarray(Array.from({ length: steps }, (_, step) => step)).map((onsets): Pattern => ({ steps, onsets }));
const STEPS = fc.constantFrom(8, 12, 16, 24);
const bar = STEPS.chain(barOf);
const twoBars = STEPS.chain((steps) => fc.tuple(barOf(steps), barOf(steps)));

test("the gaps of a bar add up to it", () => {
  fc.assert(
    fc.property(bar, (a) => {
      const sum = gaps(a).reduce((total, gap) => total + gap, 0);
      expect(sum).toBe(a.onsets.length === 0 ? 0 : a.steps);
      expect(density(a)).toBeLessThanOrEqual(1);
    }),
    laws(),
  );
});

describe("interlock", () => {
  test("a part locks with itself, both ways round, and wherever the bar begins", () => {
    fc.assert(
      fc.property(twoBars, fc.integer({ min: 0, max: 23 }), ([kick, part], by) => {
        expect(interlock(kick, kick).meet).toBe(1);
        const busy = kick.onsets.length;
        expect(interlock(kick, kick).beyondChance).toBe(busy === 0 || busy === kick.steps ? null : 1);
        const there = interlock(kick, part);
        const back = interlock(part, kick);
        const later = interlock(rotated(kick, by), rotated(part, by));
        expect([back.meet, back.beyondChance]).toEqual([there.meet, there.beyondChance]);
        expect([later.meet, later.beyondChance]).toEqual([there.meet, there.beyondChance]);
        expect(there.both.length + there.kickAlone.length).toBe(kick.onsets.length);
        expect(there.both.length + there.partAlone.length).toBe(part.onsets.length);
      }),
      laws(),
    );
  });

  test("a part on every step meets the kick more, and gains nothing beyond chance", () => {
    fc.assert(
      fc.property(bar, (kick) => {
        const every = { steps: kick.steps, onsets: Array.from({ length: kick.steps }, (_, step) => step) };
        expect(interlock(kick, every).beyondChance).toBeNull();
      }),
      laws(),
    );
  });

  test("nothing pushes where the beat is played, and a push is shared where the kick plays it too", () => {
    fc.assert(
      fc.property(twoBars, ([kick, part]) => {
        for (const { step, beat, early, shared } of pushes(part, kick, 4)) {
          expect(part.onsets).not.toContain((beat - 1) * 4);
          expect(part.onsets).toContain(step);
          expect(mod((beat - 1) * 4 - step, part.steps)).toBe(early);
          expect(shared).toBe(kick.onsets.includes(step));
        }
      }),
      laws(),
    );
  });
});

/** The least price over every pairing of hits that keeps their order round the bar, by trying all of them. */
const bruteForce = (target: Pattern, played: Pattern): number => {
  const { steps } = target;
  const alone = 1.6;
  let best = alone * (target.onsets.length + played.onsets.length);
  const apart = (from: number, to: number): number => {
    const ahead = mod(to - from, steps);
    return ahead > steps / 2 ? ahead - steps : ahead;
  };
  const keepsOrder = (pairs: readonly (readonly [number, number])[]): boolean => {
    // Unrolled, each hit of the target by its step and each played one by how far it moved: the order must not turn round.
    const moved = pairs.map(([from, to]) => from + apart(from, to));
    return moved.every((at, i) => {
      const next = moved[i + 1] ?? (moved[0] ?? 0) + steps;
      return next > at;
    });
  };
  const choose = (
    i: number,
    used: ReadonlySet<number>,
    pairs: readonly (readonly [number, number])[],
  ): void => {
    if (i === target.onsets.length) {
      if (!keepsOrder(pairs)) return;
      const moves = pairs.reduce((sum, [from, to]) => sum + Math.abs(apart(from, to)), 0);
      const left = target.onsets.length + played.onsets.length - 2 * pairs.length;
      best = Math.min(best, moves + alone * left);
      return;
    }
    choose(i + 1, used, pairs);
    const from = target.onsets[i] ?? 0;
    for (const to of played.onsets)
      if (!used.has(to) && Math.abs(apart(from, to)) <= 2)
        choose(i + 1, new Set(used).add(to), [...pairs, [from, to]]);
  };
  choose(0, new Set(), []);
  return best;
};

describe("difference from the target", () => {
  test("nothing differs only where nothing does", () => {
    fc.assert(
      fc.property(twoBars, ([target, played]) => {
        const { cost, differences } = compareBars(target, played);
        const equal = target.onsets.join() === played.onsets.join();
        expect(cost === 0).toBe(equal);
        expect(differences.length === 0).toBe(equal);
      }),
      laws(),
    );
  });

  test("it is the cheapest pairing that keeps the order", () => {
    const small = fc.constantFrom(6, 8).chain((steps) => fc.tuple(barOf(steps), barOf(steps)));
    fc.assert(
      fc.property(small, ([target, played]) => {
        expect(compareBars(target, played).cost).toBeCloseTo(bruteForce(target, played), 9);
      }),
      laws(),
    );
  });

  test("its price is that of what it names, and it does not depend on where the bar begins", () => {
    fc.assert(
      fc.property(twoBars, fc.integer({ min: 0, max: 23 }), ([target, played], by) => {
        const { cost, differences } = compareBars(target, played);
        const sum = differences.reduce((total, d) => total + (d.of === "moved" ? Math.abs(d.late) : 1.6), 0);
        expect(sum).toBeCloseTo(cost, 9);
        expect(compareBars(rotated(target, by), rotated(played, by)).cost).toBeCloseTo(cost, 9);
      }),
      laws(),
    );
  });

  test("one delayed hit is late by one, also over the bar line", () => {
    const lonely = { steps: 16, onsets: [3, 8, 15] };
    expect(compareBars(lonely, { steps: 16, onsets: [3, 9, 15] }).differences).toEqual([
      { of: "moved", step: 8, late: 1 },
    ]);
    expect(compareBars(lonely, { steps: 16, onsets: [0, 3, 8] }).differences).toEqual([
      { of: "moved", step: 15, late: 1 },
    ]);
    expect(compareBars(lonely, { steps: 16, onsets: [3, 8, 11, 15] })).toEqual({
      cost: 1.6,
      differences: [{ of: "extra", step: 11 }],
    });
  });
});

test("distances are zero to oneself and the same both ways", () => {
  fc.assert(
    fc.property(twoBars, ([a, b]) => {
      expect(swapDistance(a, a)).toBe(0);
      expect(chronotonicDistance(a, a)).toBe(0);
      expect(chronotonicDistance(a, b)).toBe(chronotonicDistance(b, a));
      if (a.onsets.length > 0 && b.onsets.length > 0) expect(swapDistance(a, b)).toBe(swapDistance(b, a));
    }),
    laws(),
  );
});

test("on the beats alone nothing is syncopated", () => {
  fc.assert(
    fc.property(fc.subarray([0, 4, 8, 12]), (onsets) => {
      expect(noteToBeatDistance({ steps: 16, onsets }, 4)).toBe(0);
      expect(heldOver({ steps: 16, onsets: [0, 4, 8, 12] }, 4)).toBe(0);
    }),
    laws(),
  );
});
