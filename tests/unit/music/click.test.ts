import fc from "fast-check";
import { expect, test } from "vitest";
import { type ClickPlan, clickTrack } from "#shared/music/click.ts";
import { beatsPerBar, parseMetre } from "#shared/music/metre.ts";
import { readTaps, tapWords } from "#shared/music/tap-against-click.ts";
import { laws } from "#tests/support/fuzz.ts";

const metreOf = (text: string) => {
  const metre = parseMetre(text);
  if (!metre.ok) throw new Error(metre.error);
  return metre.value;
};

const aPlan = (change: Partial<ClickPlan> = {}): ClickPlan => ({
  bpm: 120,
  metre: metreOf("4/4"),
  perBeat: 1,
  pattern: null,
  bars: null,
  silentEvery: null,
  rise: null,
  ...change,
});

const TOP = { bar: 0, beat: 0 };
const strengths = (plan: ClickPlan, count: number, from = TOP) => {
  const track = clickTrack(plan, from);
  return Array.from({ length: count }, (_, i) => track.at(i).strength);
};

const METRES = ["4/4", "3/4", "6/8", "12/8", "3+2+2/8", "2+2+3/16", "5/4", "7/8"].map(metreOf);
const bpm = fc.double({ min: 20, max: 400, noNaN: true });
const plans = fc.record<ClickPlan>({
  bpm,
  metre: fc.constantFrom(...METRES),
  perBeat: fc.integer({ min: 1, max: 4 }),
  pattern: fc.option(fc.string({ unit: fc.constantFrom(".", "x", "X", "o"), maxLength: 32 })),
  bars: fc.integer({ min: 1, max: 16 }),
  silentEvery: fc.option(fc.integer({ min: 2, max: 8 })),
  rise: fc.option(
    fc.record({
      percent: fc.double({ min: 0.5, max: 50, noNaN: true }),
      every: fc.integer({ min: 1, max: 8 }),
      to: bpm,
    }),
  ),
});
const places = fc.record({ bar: fc.integer({ min: -2, max: 40 }), beat: fc.integer({ min: 0, max: 1 }) });

test("so many beats take so many times 60/bpm, to a billionth of a second in the sixth minute", () => {
  fc.assert(
    fc.property(bpm, fc.constantFrom(...METRES), fc.integer({ min: 1, max: 4 }), (tempo, metre, perBeat) => {
      const beats = Math.floor((5 * tempo * 66) / 60);
      const { time } = clickTrack(aPlan({ bpm: tempo, metre, perBeat }), TOP).at(beats * perBeat);
      expect(Math.abs(time - (beats * 60) / tempo)).toBeLessThan(1e-9);
    }),
    laws(),
  );
});

test("clicks follow one another, bar by bar and beat by beat, whatever the plan", () => {
  fc.assert(
    fc.property(plans, places, (plan, from) => {
      const track = clickTrack(plan, from);
      const perBar = beatsPerBar(plan.metre) * plan.perBeat;
      const wrong = Array.from({ length: 100 }, (_, i) => i).filter((i) => {
        const [now, next] = [track.at(i), track.at(i + 1)];
        return !(
          next.time > now.time &&
          next.bar * perBar + next.step === now.bar * perBar + now.step + 1 &&
          next.beat === Math.floor(next.step / plan.perBeat) &&
          Math.abs(track.stepsAt(now.time) - i) < 1e-6
        );
      });
      expect(wrong).toEqual([]);
    }),
    laws(),
  );
});

test("the tempo never rises by more than five percent at a time, only between loops, and stops at its goal", () => {
  fc.assert(
    fc.property(plans, places, (plan, from) => {
      const track = clickTrack(plan, from);
      const perLoop = beatsPerBar(plan.metre) * plan.perBeat * (plan.bars ?? 1);
      const begin = -((from.bar * beatsPerBar(plan.metre) + from.beat) * plan.perBeat);
      const starts = Array.from({ length: 60 }, (_, loop) => begin + loop * perLoop).filter((i) => i > 0);
      const tempos = [0, ...starts].map((index) => track.at(index).bpm);
      const goal = Math.max(plan.bpm, plan.rise?.to ?? 0);
      const wrong = starts.filter((index, n) => {
        const [before = 0, now = 0] = tempos.slice(n, n + 2);
        const risen = now >= before && now <= before * 1.05 * (1 + 1e-12) && now <= goal;
        return !risen || track.at(index - 1).bpm !== before || track.at(index + perLoop - 1).bpm !== now;
      });
      expect(tempos[0]).toBe(plan.bpm);
      expect(wrong).toEqual([]);
    }),
    laws(),
  );
});

test("four per cent every second time round: 100, 100, 104, 104, 108.16 up to 110", () => {
  const plan = aPlan({ bpm: 100, bars: 2, rise: { percent: 4, every: 2, to: 110 } });
  const track = clickTrack(plan, { bar: -1, beat: 0 });
  const tempos = Array.from({ length: 9 }, (_, loop) => track.at(4 + loop * 8).bpm);
  expect(tempos.map((tempo) => Math.round(tempo * 100) / 100)).toEqual([
    100, 100, 104, 104, 108.16, 108.16, 110, 110, 110,
  ]);
  // One bar counted in and sixteen beats at 100, sixteen at 104.
  expect(track.at(36).time).toBeCloseTo((20 * 60) / 100 + (16 * 60) / 104, 12);
});

test("a count-in lasts its bars, in beats alone, and the music begins with bar 0", () => {
  const plan = aPlan({ perBeat: 4, silentEvery: 2 });
  const track = clickTrack(plan, { bar: -2, beat: 0 });
  expect(track.at(32)).toMatchObject({ bar: 0, beat: 0, time: 4, strength: "first" });
  expect(track.at(0)).toMatchObject({ bar: -2, time: 0, strength: "first" });
  expect(strengths(plan, 32, { bar: -2, beat: 0 }).filter((one) => one !== "silent")).toEqual([
    "first", "plain", "plain", "plain", "first", "plain", "plain", "plain",
  ]); // biome-ignore format: bars
});

test("the last of every four bars is silent, over the end of the loop as well", () => {
  const track = clickTrack(aPlan({ perBeat: 2, bars: 6, silentEvery: 4 }), TOP);
  const silent = Array.from({ length: 8 * 24 }, (_, i) => track.at(i))
    .filter(({ strength }) => strength === "silent")
    .map(({ bar }) => bar);
  expect([...new Set(silent)]).toEqual([3, 7, 11, 15, 19, 23]);
  expect(silent).toHaveLength(6 * 8);
});

test("the groups of an additive metre are heard, dotted beats of a compound one are beats", () => {
  expect(strengths(aPlan({ metre: metreOf("3+2+2/8") }), 8)).toEqual([
    "first", "plain", "plain", "strong", "plain", "strong", "plain", "first",
  ]); // biome-ignore format: one bar
  expect(strengths(aPlan({ metre: metreOf("6/8"), perBeat: 3 }), 7)).toEqual([
    "first", "soft", "soft", "plain", "soft", "soft", "first",
  ]); // biome-ignore format: one bar
});

test("a grid of two bars is played as written and begins anew with the loop", () => {
  const pattern = "x..X..o.........................";
  const heard = strengths(aPlan({ perBeat: 4, pattern, bars: 3 }), 16 * 4);
  const [one, two, three, again] = [0, 1, 2, 3].map((bar) => heard.slice(bar * 16, bar * 16 + 16));
  expect(one?.slice(0, 8)).toEqual([
    "first", "silent", "silent", "strong", "soft", "silent", "soft", "silent",
  ]); // biome-ignore format: half a bar
  expect(two?.filter((strength) => strength !== "silent")).toEqual(["first", "soft", "soft", "soft"]);
  expect(three).toEqual(one);
  expect(again).toEqual(one);
});

test("a click can go on from any beat: the rest lies where it would have lain", () => {
  fc.assert(
    fc.property(plans, fc.integer({ min: 0, max: 30 }), fc.integer({ min: 0, max: 100 }), (plan, bar, i) => {
      const steady = { ...plan, rise: null };
      const whole = clickTrack(steady, TOP);
      const later = clickTrack(steady, { bar, beat: 1 });
      const skipped = (bar * beatsPerBar(plan.metre) + 1) * plan.perBeat;
      const [a, b] = [later.at(i), whole.at(skipped + i)];
      expect({ ...a, time: 0 }).toEqual({ ...b, time: 0 });
      expect(a.time + whole.at(skipped).time).toBeCloseTo(b.time, 9);
    }),
    laws(),
  );
});

test("taps are read against the click: how fast, how late, on which share of the beat", () => {
  const share = fc.constantFrom(1, 2, 0.5, 3);
  const late = fc.double({ min: -0.1, max: 0.1, noNaN: true });
  fc.assert(
    fc.property(fc.double({ min: 60, max: 130, noNaN: true }), share, late, (tempo, tapped, off) => {
      const track = clickTrack(aPlan({ bpm: tempo, perBeat: 2 }), TOP);
      const apart = 60 / tempo / tapped;
      const taps = Array.from(
        { length: 12 },
        (_, i) => 10 * apart + i * apart + off * Math.min(apart, 60 / tempo),
      );
      const reading = readTaps(track, taps);
      expect(reading?.drift).toBeCloseTo(0, 6);
      expect(reading?.offset).toBeCloseTo(off * Math.min(apart, 60 / tempo), 6);
    }),
    laws(),
  );
});

test("too few taps say nothing; a player who rushes by two percent is told so", () => {
  const track = clickTrack(aPlan({ bpm: 100 }), TOP);
  expect(readTaps(track, [0, 0.6, 1.2])).toBeNull();
  const rushed = Array.from({ length: 5 }, (_, i) => 6.02 + (i * 60) / 102);
  const reading = readTaps(track, rushed);
  expect(reading?.drift).toBeCloseTo(2, 6);
  expect(reading === null ? "" : tapWords(reading)).toBe("2.0 % faster, on the click");
  const late = readTaps(track, [6.04, 6.64, 7.24, 7.84]);
  expect(late === null ? "" : tapWords(late)).toBe("at the click's tempo, 40 ms late");
});
