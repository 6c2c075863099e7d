import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Board } from "#shared/board/board.ts";
import type { Attendance, Rehearsal } from "#shared/board/rehearsal.ts";
import { eveningOn, momentOn } from "#shared/selectors/evenings.ts";
import { blockTimes, phasesOf, stretchOf } from "#shared/selectors/plan-stretch.ts";
import { laws } from "#tests/support/fuzz.ts";

const DAY = "2026-03-11";
const ZONE = "Europe/Lisbon";
const MINUTE = 60_000;
const at = (clock: string): number => momentOn(DAY, clock, ZONE) ?? Number.NaN;

const people: Board["people"] = new Map(
  ["ana", "ben", "cleo"].map((id) => [id, { id, name: id, dep: false, contact: "" } as never]),
);
const ROOM = { people, aways: [] };

/** 19:30 booked, 19:45 playing, 85 minutes and a pause of 10: until 21:20. */
const evening = (
  said: Readonly<Record<string, Attendance>> = {},
  more: Partial<Rehearsal> = {},
): Rehearsal => ({
  ...eveningOn({ rehearsals: [] }, DAY),
  start: "19:30",
  attendance: new Map(Object.entries(said)),
  ...more,
});
const split = (rehearsal: Rehearsal, now = at("12:00")) =>
  phasesOf(ROOM, rehearsal, stretchOf(rehearsal, ZONE, now));
const here = (from: string | null, to: string | null = null): Attendance => ({
  here: true,
  from: from === null ? null : at(from),
  to: to === null ? null : at(to),
});

describe("the stretches of an evening", () => {
  test("with everybody there it is one, and begins after the set-up", () => {
    expect(stretchOf(evening(), ZONE, at("12:00"))).toEqual({ begin: at("19:45"), minutes: 85, pause: 10 });
    const { phases, cut } = split(evening());
    expect(cut).toBeNull();
    expect(phases.map(({ minutes, present }) => [minutes, [...present]])).toEqual([
      [85, ["ana", "ben", "cleo"]],
    ]);
  });

  test("a late comer makes two, the first without them", () => {
    const { phases, cut } = split(evening({ ben: here("20:15") }));
    expect(cut).toBe(30);
    expect(phases.map(({ minutes, present }) => [minutes, [...present]])).toEqual([
      [30, ["ana", "cleo"]],
      [55, ["ana", "ben", "cleo"]],
    ]);
  });

  test("of a third moment, what is left counts only those who are there all through", () => {
    const { phases, cut } = split(evening({ ben: here("20:15"), cleo: here(null, "21:00") }));
    expect(cut).toBe(30);
    expect(phases.map(({ present }) => [...present])).toEqual([
      ["ana", "cleo"],
      ["ana", "ben"],
    ]);
  });

  test("a cut after the pause takes the pause off the first stretch, one inside it lies at half time", () => {
    expect(split(evening({ ben: here(null, "20:45") })).phases.map(({ minutes }) => minutes)).toEqual([
      50, 35,
    ]);
    expect(split(evening({ ben: here(null, "20:30") })).phases.map(({ minutes }) => minutes)).toEqual([
      42.5, 42.5,
    ]);
  });

  test("who comes before playing begins is there from the start; who stays away is nowhere", () => {
    const { phases } = split(evening({ ben: here("19:40"), cleo: { here: false, from: null, to: null } }));
    expect(phases.map(({ present }) => [...present])).toEqual([["ana", "ben"]]);
  });

  test("without a start, only who is there all evening counts", () => {
    const { phases, cut } = split(evening({ ben: here("20:15") }, { start: "" }));
    expect(cut).toBeNull();
    expect(phases.map(({ present }) => [...present])).toEqual([["ana", "cleo"]]);
  });

  test("once it has begun there is the rest of it to plan, and nothing once it is over", () => {
    const begun = evening({}, { startedAt: at("19:50") });
    expect(stretchOf(begun, ZONE, at("20:00"))).toEqual({ begin: at("20:00"), minutes: 75, pause: 10 });
    expect(stretchOf(begun, ZONE, at("20:50"))).toEqual({ begin: at("20:50"), minutes: 35, pause: 0 });
    expect(stretchOf(begun, ZONE, at("23:00")).minutes).toBe(0);
  });

  test("whoever comes and goes when, the stretches hold all minutes, and who counts is there from end to end", () => {
    const moment = fc.option(fc.integer({ min: -30, max: 130 }).map((m) => at("19:45") + m * MINUTE));
    const said = fc.record({ here: fc.boolean(), from: moment, to: moment });
    const all = fc.record({ ana: said, ben: said, cleo: said });
    fc.assert(
      fc.property(all, (attendance) => {
        const rehearsal = evening(attendance);
        const { phases, cut } = split(rehearsal);
        expect(phases.reduce((sum, { minutes }) => sum + minutes, 0)).toBe(85);
        const middle = at("19:45") + (cut ?? 95) * MINUTE;
        const spans = [
          [at("19:45"), middle],
          [middle, at("21:20")],
        ] as const;
        for (const [i, { minutes, present }] of phases.entries()) {
          expect(minutes).toBeGreaterThanOrEqual(0);
          const [from, to] = spans[i] ?? [0, 0];
          for (const person of present) {
            const one = attendance[person as keyof typeof attendance];
            expect(one.here && (one.from ?? from) <= from && (one.to ?? to) >= to).toBe(true);
          }
        }
      }),
      laws(),
    );
  });
});

describe("when blocks begin", () => {
  test("the pause comes before the first block after half of the playing", () => {
    expect(blockTimes([{ minutes: 10 }, { minutes: 15 }, { minutes: 5 }], 10)).toEqual([
      { from: 0, to: 10 },
      { from: 10, to: 25 },
      { from: 35, to: 40 },
    ]);
  });

  test("nothing begins before those who play it are there", () => {
    const blocks = [{ minutes: 20 }, { minutes: 20, earliest: 25 }, { minutes: 20, earliest: 25 }];
    expect(blockTimes(blocks, 10).map(({ from }) => from)).toEqual([0, 25, 55]);
  });
});
