/** Laws of the score. Each holds for every history, whatever the constants; `EPS` is for rounding only. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { type Id, partCardId } from "#shared/board/ids.ts";
import { DEFAULT_SETTINGS } from "#shared/board/settings.ts";
import type { Level } from "#shared/board/status.ts";
import type { Feel, Take } from "#shared/board/take.ts";
import { scoreMember } from "#shared/readiness/member-score.ts";
import type { ScoreInput } from "#shared/readiness/score-input.ts";
import { type SongScore, scoreSong } from "#shared/readiness/song-score.ts";
import { laws } from "#tests/support/fuzz.ts";
import {
  CHAIRS,
  DAY_MS,
  history,
  MEMBERS,
  mark,
  moment,
  SONG,
  START,
  STATUS_IDS,
  slip,
  takeOf,
  withFile,
  withMark,
} from "#tests/support/histories.ts";
import { differingBits, unitName } from "#tests/support/score-bits.ts";

const EPS = 1e-12;

/** Fails when the song, a unit or a member scores lower in `after` than in `before`. Units only one side has are left out. */
const expectNowhereLower = (before: SongScore, after: SongScore, members = MEMBERS): void => {
  expect(after.score).toBeGreaterThanOrEqual(before.score - EPS);
  const old = new Map([...before.units, ...before.covers].map((one) => [unitName(one), one]));
  for (const one of [...after.units, ...after.covers]) {
    const was = old.get(unitName(one));
    if (was === undefined) continue;
    expect(one.r, unitName(one)).toBeGreaterThanOrEqual(was.r - EPS);
    expect(one.ownR, unitName(one)).toBeGreaterThanOrEqual(was.ownR - EPS);
    expect(one.status?.level ?? 0, unitName(one)).toBeGreaterThanOrEqual(was.status?.level ?? 0);
  }
  for (const member of members) {
    const [low, high] = [scoreMember(before, member), scoreMember(after, member)];
    if (low !== null) expect(high, member).toBeGreaterThanOrEqual(low - EPS);
  }
};

const withTake = (input: ScoreInput, take: Take): ScoreInput =>
  withFile(input, { takes: [...input.file.takes, take] });

const changeTake = (input: ScoreInput, index: number, change: (take: Take) => Take): ScoreInput =>
  withFile(input, { takes: input.file.takes.map((take, i) => (i === index ? change(take) : take)) });

const newTake = (feels: readonly Feel[]): fc.Arbitrary<Take> =>
  fc
    .tuple(takeOf(fc.constantFrom("take-00", "take-zz"), fc.constant([])), fc.constantFrom(...feels))
    .map(([take, feel]) => ({ ...take, feel }));

const historyWithTake = history
  .filter((input) => input.file.takes.length > 0)
  .chain((input) => fc.tuple(fc.constant(input), fc.nat(input.file.takes.length - 1)));

const aMark = fc.tuple(fc.constantFrom(...STATUS_IDS), fc.constantFrom(...MEMBERS), mark);

test("[SCORE-1] every score, part of a split and share of the log lies between 0 and 1", () => {
  fc.assert(
    fc.property(history, (input) => {
      const song = scoreSong(input);
      const { score, split, logShare, trouble, units, covers } = song;
      const bounded = [score, logShare, ...Object.values(split)];
      for (const one of [...units, ...covers]) {
        bounded.push(one.r, one.ownR, one.unit.share, one.contribution, ...Object.values(one.split));
        if (one.own) bounded.push(one.own.c, one.own.F, one.own.said, one.own.shown);
      }
      for (const member of MEMBERS) bounded.push(scoreMember(song, member) ?? 0);
      // NaN is on neither side of a bound.
      expect(bounded.filter((value) => !(value >= 0 && value <= 1 + EPS))).toEqual([]);
      expect(trouble).toBeGreaterThanOrEqual(0);
    }),
    laws(),
  );
});

test("said, shown, unsaid and slipped of a unit sum to 1, and its score is said + shown", () => {
  fc.assert(
    fc.property(history, (input) => {
      for (const { own } of scoreSong(input).units) {
        if (own === null) continue;
        expect(Math.abs(own.said + own.shown + own.unsaid + own.slipped - 1)).toBeLessThan(EPS);
        expect(Object.is(own.r, own.said + own.shown)).toBe(true);
      }
    }),
    laws(),
  );
});

test("[SCORE-2] a clean take at any past date never lowers anything", () => {
  fc.assert(
    fc.property(history, newTake(["clean", "wobble"]), (input, take) => {
      expectNowhereLower(scoreSong(input), scoreSong(withTake(input, take)));
    }),
    laws(),
  );
});

test("[SCORE-3] a slip never raises anything, whoever it is flagged on", () => {
  fc.assert(
    fc.property(historyWithTake, slip, ([input, at], one) => {
      const after = changeTake(input, at, (take) => ({ ...take, slips: [...take.slips, one] }));
      expectNowhereLower(scoreSong(after), scoreSong(input));
    }),
    laws(),
  );
});

test("[SCORE-2] a better status never lowers anything", () => {
  fc.assert(
    fc.property(history, aMark, fc.constantFrom<Level>(0, 1, 2, 3), (input, [id, member, status], other) => {
      const [low, high] = status.level < other ? [status.level, other] : [other, status.level];
      expectNowhereLower(
        scoreSong(withMark(input, id, member, { ...status, level: low })),
        scoreSong(withMark(input, id, member, { ...status, level: high })),
      );
    }),
    laws(),
  );
});

test("[SCORE-2] a better feel never lowers anything", () => {
  const worse = fc.constantFrom<[Feel, Feel]>(
    ["stopped", "wobble"],
    ["wobble", "clean"],
    ["stopped", "clean"],
  );
  fc.assert(
    fc.property(historyWithTake, worse, ([input, at], [low, high]) => {
      const feeling = (feel: Feel): SongScore =>
        scoreSong(changeTake(input, at, (take) => ({ ...take, feel })));
      expectNowhereLower(feeling(low), feeling(high));
    }),
    laws(),
  );
});

test("[SCORE-2] a later anchor never lowers anything", () => {
  fc.assert(
    fc.property(history, aMark, moment(), (input, [id, member, status], other) => {
      const anchored = (anchor: number): SongScore =>
        scoreSong(withMark(input, id, member, { ...status, anchor }));
      expectNowhereLower(anchored(Math.min(status.anchor, other)), anchored(Math.max(status.anchor, other)));
    }),
    laws(),
  );
});

test("[SCORE-3] with the log read up to now, a later day never raises anything", () => {
  fc.assert(
    fc.property(history, fc.integer({ min: 0, max: 800 * DAY_MS }), (input, wait) => {
      expectNowhereLower(scoreSong({ ...input, t: input.t + wait }), scoreSong(input));
    }),
    laws(),
  );
});

test("[SCORE-4] events in any order, logged any number of times, give a bit-identical result", () => {
  const shuffled = <T>(items: readonly T[]): fc.Arbitrary<T[]> =>
    fc.shuffledSubarray([...items], { minLength: items.length, maxLength: items.length });
  const reordered = history.chain((input) => {
    const { takes, cards, castings, statuses } = input.file;
    return fc
      .tuple(
        fc.subarray([...takes]).chain((again) => shuffled([...takes, ...again])),
        shuffled(cards),
        shuffled([...castings]),
        shuffled([...statuses]),
        shuffled(input.chairs),
        shuffled([...input.lineUp]),
      )
      .map(([log, details, casts, marks, chairs, seats]): [ScoreInput, ScoreInput] => {
        const mixed = log.map((take) => ({
          ...take,
          seats: [...take.seats, ...take.seats].reverse(),
          slips: [...take.slips, ...take.slips].reverse(),
        }));
        const file = {
          ...input.file,
          takes: mixed,
          cards: details,
          castings: new Map(casts),
          statuses: new Map(marks),
        };
        return [input, { ...input, file, chairs, lineUp: new Map(seats) }];
      });
  });
  fc.assert(
    fc.property(reordered, ([input, mixed]) => {
      expect(differingBits(scoreSong(input), scoreSong(mixed))).toEqual([]);
    }),
    laws(),
  );
});

test("takes after now, or after the day asked about, change nothing", () => {
  fc.assert(
    fc.property(
      history,
      takeOf(fc.constant("later")),
      fc.integer({ min: 1, max: DAY_MS }),
      (input, take, later) => {
        const at = Math.min(input.asOf, input.t) + later;
        expect(differingBits(scoreSong(input), scoreSong(withTake(input, { ...take, at })))).toEqual([]);
      },
    ),
    laws(),
  );
});

test("[SCORE-5] ticks alone never score above the highest claim", () => {
  fc.assert(
    fc.property(history, (input) => {
      const { score, units, logShare } = scoreSong(withFile(input, { takes: [] }));
      const most = input.settings.claim[3];
      expect(score).toBeLessThanOrEqual(most + EPS);
      for (const one of units) expect(one.r).toBeLessThanOrEqual(most);
      expect(logShare).toBe(0);
    }),
    laws(),
  );
});

test("[SCORE-5] solo work alone is never worth more than the solo cap", () => {
  fc.assert(
    fc.property(history, (input) => {
      const takes = input.file.takes.map((take) => ({ ...take, kind: "solo" as const }));
      for (const { own } of scoreSong(withFile(input, { takes })).units) {
        if (own) expect(own.N).toBeLessThanOrEqual(input.settings.soloCap);
      }
    }),
    laws(),
  );
});

test("[SCORE-6] four weekly takes beat four on one night at any horizon", () => {
  const four = (at: readonly number[], kind: Take["kind"]): Take[] =>
    at.map((day, i) => ({
      id: `take-${i}`,
      song: SONG,
      occasion: "r:2026-01-01",
      no: i,
      kind,
      at: START + day * DAY_MS,
      seats: CHAIRS.map((chair) => ({ chair, member: "tomasz" })),
      scope: { of: "whole" },
      feel: "clean",
      tempoStart: null,
      tempoEnd: null,
      key: null,
      slips: [],
      writers: ["phone"],
    }));
  const solo = (input: ScoreInput, takes: Take[], ahead: number): ScoreInput => ({
    ...withFile(input, { takes, cards: [], statuses: new Map(), castings: new Map() }),
    lineUp: new Map(CHAIRS.map((chair) => [chair, "tomasz"])),
    settings: DEFAULT_SETTINGS,
    asOf: START + 22 * DAY_MS,
    t: START + (22 + ahead) * DAY_MS,
  });
  fc.assert(
    fc.property(
      history,
      fc.constantFrom<Take["kind"]>("solo", "drill", "run", "gig"),
      fc.integer({ min: 0, max: 3000 }),
      (input, kind, ahead) => {
        const weekly = scoreSong(solo(input, four([0, 7, 14, 21], kind), ahead));
        const crammed = scoreSong(solo(input, four([21, 21.01, 21.02, 21.03], kind), ahead));
        expect(weekly.score).toBeGreaterThan(crammed.score);
      },
    ),
    laws(),
  );
});

test("[SCORE-1] contributions sum to the score, shares to 1 and the six parts of the split to 1", () => {
  fc.assert(
    fc.property(history, (input) => {
      const { score, split, units } = scoreSong(input);
      const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
      expect(Object.is(sum(units.map((one) => one.contribution)), score)).toBe(true);
      expect(Math.abs(sum(units.map((one) => one.unit.share)) - 1)).toBeLessThan(EPS);
      expect(Math.abs(sum(Object.values(split)) - 1)).toBeLessThan(EPS);
      expect(Math.abs(split.said + split.shown - score)).toBeLessThan(EPS);
      for (const one of units) expect(Math.abs(sum(Object.values(one.split)) - 1)).toBeLessThan(EPS);
    }),
    laws(),
  );
});

test("[SCORE-2] covering a chair never lowers anything", () => {
  fc.assert(
    fc.property(history, fc.constantFrom(...CHAIRS), fc.constantFrom(...MEMBERS), (input, chair, member) => {
      const seat = (holder: Id | null): SongScore =>
        scoreSong({ ...input, lineUp: new Map(input.lineUp).set(chair, holder) });
      // The mean of somebody who takes one more part may well fall; everybody else's may not.
      expectNowhereLower(
        seat(null),
        seat(member),
        MEMBERS.filter((other) => other !== member),
      );
    }),
    laws(),
  );
});

test("[SCORE-7] a shared detail is never above its weaker half", () => {
  fc.assert(
    fc.property(history, (input) => {
      const { units } = scoreSong(input);
      for (const one of units) {
        if (one.unit.card === null) continue;
        for (const half of units) {
          if (half.unit.card === one.unit.card) expect(one.r).toBeLessThanOrEqual(half.ownR);
        }
      }
    }),
    laws(),
  );
});

test("[SCORE-3] lowering a status, its anchor kept, never raises anything", () => {
  fc.assert(
    fc.property(history, aMark, fc.nat(3), moment(), (input, [id, member, status], steps, at) => {
      const level = Math.max(0, status.level - steps) as Level;
      const lowered = { ...status, level, from: status.level, at: Math.max(at, status.at + 1) };
      expectNowhereLower(
        scoreSong(withMark(input, id, member, lowered)),
        scoreSong(withMark(input, id, member, status)),
      );
    }),
    laws(),
  );
});

test("absence adds no evidence: a take says nothing about those who did not sit in it", () => {
  fc.assert(
    fc.property(history, (input) => {
      for (const { unit, evidence } of scoreSong(input).units) {
        if (unit.of === "band") continue;
        for (const { take } of evidence.events()) {
          expect(take.seats).toContainEqual({ chair: unit.chair, member: unit.member });
        }
      }
    }),
    laws(),
  );
});

test("deleted details, spotted ones and cover cards have no share of the score", () => {
  fc.assert(
    fc.property(history, (input) => {
      const { units, covers } = scoreSong(input);
      const counted = new Set(units.flatMap(({ unit }) => (unit.card ? [unit.card.id] : [])));
      for (const card of input.file.cards) {
        if (card.without !== undefined || card.chairs.length === 0) expect(counted.has(card.id)).toBe(false);
      }
      for (const { unit } of covers) {
        expect(unit.share).toBe(0);
        expect(input.lineUp.get(unit.card?.without ?? "") ?? null).toBeNull();
      }
      expect(units.some(({ unit }) => unit.statusId === partCardId(SONG, "ky"))).toBe(false);
    }),
    laws(),
  );
});
