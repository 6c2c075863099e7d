import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { blockCost, compile } from "#shared/order/compiled.ts";
import { canBeExact, exactOrder, orderingExactly } from "#shared/order/exact-order.ts";
import type { SetBrief, SetOrder, SetSong } from "#shared/order/set-facts.ts";
import { betterOrder, quickOrder } from "#shared/order/solve-order.ts";
import { orderTerms, sumOfTerms } from "#shared/order/terms.ts";
import { laws } from "#tests/support/fuzz.ts";

const share = fc.integer({ min: 0, max: 10 }).map((n) => n / 10);
const songFor = (id: string): fc.Arbitrary<SetSong> =>
  fc.record({
    id: fc.constant(id),
    seconds: fc.integer({ min: 120, max: 420 }),
    energy: share,
    dance: share,
    value: share,
    opener: share,
    closer: share,
    tempo: fc.option(fc.integer({ min: 50, max: 200 })),
    key: fc.constantFrom("", "C", "Em", "A"),
    tuning: fc.constantFrom("standard", "D-standard"),
    rig: fc.constantFrom("", "acoustic"),
    lead: fc.option(fc.constantFrom("priya", "minjae")),
    hardToSing: fc.boolean(),
    mustPlay: fc.boolean(),
  });
const briefOf = (least: number, most: number, blocks = 2): fc.Arbitrary<SetBrief> =>
  fc.integer({ min: least, max: most }).chain((count) =>
    fc.record({
      songs: fc.tuple(...Array.from({ length: count }, (_, i) => songFor(`s${i}`))),
      blocks: fc.array(
        fc.record({
          minutes: fc.integer({ min: 5, max: 45 }),
          arc: fc.array(share, { minLength: 1, maxLength: 5 }),
        }),
        { minLength: 1, maxLength: blocks },
      ),
      pins: fc.constant([]),
      standing: fc.constantFrom([], [["s1", "s0", "s2"]]),
      gapSeconds: fc.constantFrom(0, 20),
      talkSeconds: fc.constantFrom(0, 90),
    }),
  );
const costOf = (brief: SetBrief, order: SetOrder): number => sumOfTerms(orderTerms(order, brief));

/** Every way to play some of the songs in the blocks. */
const everyOrder = (brief: SetBrief): readonly SetOrder[] => {
  const found: SetOrder[] = [];
  const walk = (done: string[][], left: readonly string[]): void => {
    found.push(done.map((block) => [...block]));
    for (const id of left) {
      const rest = left.filter((other) => other !== id);
      // Only behind the last block that has begun, so that each order is met once.
      const first = done.findLastIndex((block) => block.length > 0);
      for (let block = Math.max(0, first); block < done.length; block += 1) {
        done[block]?.push(id);
        walk(done, rest);
        done[block]?.pop();
      }
    }
  };
  walk(
    brief.blocks.map(() => []),
    brief.songs.map(({ id }) => id),
  );
  return found;
};

describe("the exact order", () => {
  test("costs what the cheapest of all orders costs", () => {
    fc.assert(
      fc.property(briefOf(1, 4), (brief) => {
        const least = Math.min(...everyOrder(brief).map((order) => costOf(brief, order)));
        expect(costOf(brief, exactOrder(brief))).toBeCloseTo(least, 9);
      }),
      laws(120),
    );
  });

  test("never leaves out a song because somebody asked for it", () => {
    fc.assert(
      fc.property(briefOf(1, 5), fc.nat(), (brief, some) => {
        const played = exactOrder(brief).flat();
        fc.pre(played.length > 0);
        const song = played[some % played.length];
        const songs = brief.songs.map((one) => (one.id === song ? { ...one, value: one.value + 1 } : one));
        expect(exactOrder({ ...brief, songs }).flat()).toContain(song);
      }),
      laws(80),
    );
  });

  test("is found for few songs without pins only, in stretches that end with the order", () => {
    fc.assert(
      fc.property(briefOf(1, 5), (brief) => {
        expect(canBeExact(brief)).toBe(true);
        expect(canBeExact({ ...brief, pins: [{ song: "s0", block: 0, at: 0 }] })).toBe(false);
        const steps = [...orderingExactly(compile(brief))];
        expect(steps.pop()).toEqual(exactOrder(brief));
        expect(steps.every((step) => step === null)).toBe(true);
      }),
      laws(20),
    );
  });

  test("is never dearer than the search's, and the search comes close", () => {
    let [exactly, worst] = [0, 0];
    const runs = 40;
    fc.assert(
      fc.property(briefOf(5, 6), (brief) => {
        const exact = costOf(brief, exactOrder(brief));
        const found = costOf(brief, betterOrder(brief, quickOrder(brief), 7, 4000));
        expect(found).toBeGreaterThanOrEqual(exact - 1e-9);
        if (found - exact < 1e-9) exactly += 1;
        worst = Math.max(worst, found - exact);
      }),
      { numRuns: runs, seed: 20_261_128 },
    );
    expect(exactly).toBeGreaterThan(runs * 0.9);
    expect(worst).toBeLessThan(2);
  });
});

describe("the search", () => {
  const pinned = briefOf(6, 14, 3).chain((brief) =>
    fc
      .uniqueArray(
        fc.record({
          song: fc.nat(brief.songs.length - 1),
          block: fc.nat(brief.blocks.length - 1),
          at: fc.integer({ min: -1, max: 2 }),
        }),
        {
          selector: ({ song }) => song,
          maxLength: 3,
        },
      )
      .map((pins) => ({ ...brief, pins: pins.map((pin) => ({ ...pin, song: `s${pin.song}` })) })),
  );

  test("never makes an order dearer, plays no song twice, and gives the same list for the same seed and steps", () => {
    fc.assert(
      fc.property(pinned, fc.nat(), (brief, seed) => {
        const quick = quickOrder(brief);
        const better = betterOrder(brief, quick, seed, 300);
        expect(costOf(brief, better)).toBeLessThanOrEqual(costOf(brief, quick) + 1e-9);
        const played = better.flat();
        expect(new Set(played).size).toBe(played.length);
        expect(better).toHaveLength(brief.blocks.length);
        expect(betterOrder(brief, quick, seed, 300)).toEqual(better);
      }),
      laws(150),
    );
  });

  test("leaves pinned songs where they are pinned as long as the block is long enough", () => {
    fc.assert(
      fc.property(pinned, fc.nat(), (brief, seed) => {
        const order = betterOrder(brief, quickOrder(brief), seed, 200);
        const places = new Set<string>();
        for (const { song, block, at } of brief.pins) {
          const songs = order[block] ?? [];
          const place = `${block} ${at}`;
          const first = !places.has(place);
          places.add(place);
          if (!first) continue;
          expect(songs, "a pinned song is played").toContain(song);
          if (at >= 0 && songs.length > at + brief.pins.length) expect(songs[at]).toBe(song);
          if (at < 0) expect(songs.at(-1)).toBe(song);
        }
      }),
      laws(150),
    );
  });

  test("plays every must, as there is always room for one at a price", () => {
    fc.assert(
      fc.property(briefOf(3, 10, 1), fc.nat(), (brief, seed) => {
        const played = new Set(betterOrder(brief, quickOrder(brief), seed, 200).flat());
        const musts = brief.songs.filter(({ mustPlay }) => mustPlay);
        const minutes = brief.songs.reduce((sum, { seconds }) => sum + seconds + 65, 0) / 60;
        // A must costs 60; all songs together must not cost that much in minutes.
        fc.pre(minutes * 1.5 < 55);
        for (const { id } of musts) expect(played.has(id)).toBe(true);
      }),
      laws(150),
    );
  });
});

test("the terms sum to what the search costs a block at", () => {
  fc.assert(
    fc.property(briefOf(1, 8, 1), fc.infiniteStream(fc.nat(1000)), (brief, draws) => {
      const order = brief.songs
        .map((song, i) => ({ i, at: draws.next().value ?? 0, song }))
        .sort((a, b) => a.at - b.at)
        .slice(0, 1 + ((draws.next().value ?? 0) % brief.songs.length));
      const played = order.map(({ song }) => song.id);
      const terms = orderTerms([played], brief);
      const cost = blockCost(
        compile(brief),
        order.map(({ i }) => i),
        0,
      );
      expect(sumOfTerms(terms) - terms.must - terms.pin).toBeCloseTo(cost, 9);
    }),
    laws(),
  );
});

test("wanting nothing costs nothing: a song that fits its arc and opens and closes well", () => {
  const song: SetSong = {
    id: "a", seconds: 600, energy: 0.5, dance: 0.5, value: 0, opener: 1, closer: 1, tempo: 120, key: "C",
    tuning: "standard", rig: "", lead: null, hardToSing: false, mustPlay: false,
  }; // biome-ignore format: one song
  const brief: SetBrief = {
    songs: [song],
    blocks: [{ minutes: 10, arc: [0.5] }],
    pins: [],
    standing: [],
    gapSeconds: 20,
    talkSeconds: 0,
  };
  expect(sumOfTerms(orderTerms([["a"]], brief))).toBe(0);
});
