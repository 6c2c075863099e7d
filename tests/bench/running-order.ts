/**
 * How good and how fast running orders are: `node tests/run.mjs tests/bench/running-order.ts`.
 * The peer is the exact order where there are at most ten songs; beyond that, the best of many long searches, and the
 * greedy order alone.
 */
import { seeded } from "#shared/lib/seeded.ts";
import { exactOrder } from "#shared/order/exact-order.ts";
import type { SetBrief, SetOrder, SetSong } from "#shared/order/set-facts.ts";
import { betterOrder, ORDER_STEPS, quickOrder } from "#shared/order/solve-order.ts";
import { orderTerms, sumOfTerms } from "#shared/order/terms.ts";

const KEYS = ["C", "A", "Em", "D", "G", "Am"] as const;

const songs = (count: number, random: () => number): readonly SetSong[] =>
  Array.from({ length: count }, (_, i) => ({
    id: `s${i}`,
    seconds: Math.round(170 + random() * 140),
    energy: Math.round(random() * 4) / 4,
    dance: random(),
    value: random(),
    opener: random(),
    closer: random(),
    tempo: Math.round(60 + random() * 120),
    key: KEYS[Math.floor(random() * KEYS.length)] ?? "C",
    tuning: random() < 0.2 ? "drop D|0" : "standard|0",
    rig: random() < 0.1 ? "acoustic guitar" : "",
    lead: random() < 0.75 ? "priya" : "minjae",
    hardToSing: random() < 0.3,
    mustPlay: random() < 0.1,
  }));

const briefOf = (count: number, minutes: readonly number[], seed: number): SetBrief => ({
  songs: songs(count, seeded(seed)),
  blocks: minutes.map((each, i) => ({ minutes: each, arc: i === 0 ? [0.6, 0.5, 0.7] : [0.6, 0.8, 1] })),
  pins: [],
  standing: [],
  gapSeconds: 20,
  talkSeconds: 60,
});

const costOf = (brief: SetBrief, order: SetOrder): number => sumOfTerms(orderTerms(order, brief));

const timed = <T>(work: () => T): readonly [value: T, ms: number] => {
  const begun = performance.now();
  const value = work();
  return [value, performance.now() - begun];
};

const CASES = [
  { name: "10 songs, one block of 25", count: 10, minutes: [25], exact: true },
  { name: "28 songs, two of 45", count: 28, minutes: [45, 45], exact: false },
  { name: "60 songs, three of 40", count: 60, minutes: [40, 40, 40], exact: false },
] as const;
const SEEDS = [1, 2, 3, 4, 5];
/** Searches that the best known order is taken from, and how much longer each is. */
const LONG = 5;

for (const { name, count, minutes, exact } of CASES) {
  const rows = SEEDS.map((seed) => {
    const brief = briefOf(count, minutes, seed);
    const [quick, quickMs] = timed(() => quickOrder(brief));
    const [better, betterMs] = timed(() => betterOrder(brief, quick, seed));
    const long = SEEDS.map((other) =>
      costOf(brief, betterOrder(brief, quick, other * 100, ORDER_STEPS * LONG)),
    );
    const best = exact ? costOf(brief, exactOrder(brief)) : Math.min(...long, costOf(brief, better));
    return { quickMs, betterMs, quick: costOf(brief, quick) - best, better: costOf(brief, better) - best };
  });
  const mean = (of: (row: (typeof rows)[number]) => number): string =>
    (rows.reduce((sum, row) => sum + of(row), 0) / rows.length).toFixed(2);
  console.log(
    `${name} (best known: ${exact ? "exact" : `${SEEDS.length} searches of ${LONG} times the length`})`,
  );
  console.log(
    `  at once: ${mean((row) => row.quickMs)} ms, ${mean((row) => row.quick)} dearer than the best known`,
  );
  console.log(`  searched: ${mean((row) => row.betterMs)} ms, ${mean((row) => row.better)} dearer`);
}
