/**
 * What an evening could do to one song, unit by unit: how each would stand on the night after nothing, a clean run, a clean
 * drill, or both. Everything is read by the score's own formulas on a log with planned takes in it.
 */
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import type { Level } from "../board/status.ts";
import type { Take } from "../board/take.ts";
import type { SongPlan, Unit } from "../readiness/plan.ts";
import { plannedTake, withCardRaised, withPlanned } from "../readiness/planned.ts";
import type { ScoreInput } from "../readiness/score-input.ts";
import {
  ownScore,
  type Readings,
  readSong,
  type SongScore,
  scoreSong,
  statusFor,
} from "../readiness/song-score.ts";

/** Who is in the room in one stretch of the evening. */
export interface Room {
  readonly present: ReadonlySet<Id>;
  /** Chair → who sits there while its player is away. */
  readonly standIns: Readonly<Record<Id, Id>>;
}

/** One unit of a song and what tonight can do to it; every r is the player's own, on the night. */
export interface UnitOutlook {
  readonly unit: Unit;
  /** Its player is in the room (the band together: somebody is). */
  readonly here: boolean;
  /** Effective level of its player today; 0 where there is none. */
  readonly level: Level;
  /** Chance that it goes clean if it is played now. */
  readonly now: number;
  readonly untouched: number;
  readonly run: number;
  readonly drilled: number;
  readonly drilledRun: number;
}

export interface SongOutlook {
  readonly input: ScoreInput;
  readonly plan: SongPlan;
  /** The song on the night if nothing is done, 0 to 1. */
  readonly before: number;
  /** The song as it stands now, 0 to 1. */
  readonly today: number;
  readonly units: readonly UnitOutlook[];
}

/** Kinds of unit whose rows in a reading line up, because the plan is the same. */
const scoresOf = (readings: Readings, input: ScoreInput): readonly number[] =>
  readings.units.map((reading) => ownScore(reading, statusFor(input.file, reading.unit), input).own?.r ?? 0);

/** Tonight's seats: the night's own players who are here, and who sits in for the others. */
export const seatedTonight = (take: Take, plan: SongPlan, { present, standIns }: Room): Take => ({
  ...take,
  seats: plan.parts.flatMap(({ chair, holder }) => {
    const member = holder !== null && present.has(holder) ? holder : standIns[chair];
    return member === undefined || !present.has(member) ? [] : [{ chair, member }];
  }),
});

const cardsOf = (plan: SongPlan): readonly Card[] => [
  ...new Set(plan.units.flatMap(({ card }) => (card === null ? [] : [card]))),
];

/** The input after these takes, with the details' players in the room one level further on. */
export const drilledInput = (
  base: ScoreInput,
  plan: SongPlan,
  takes: readonly Take[],
  room: Room,
  at: number,
  isDrilled: (card: Card) => boolean = () => true,
): ScoreInput => {
  const planned = withPlanned(base, takes);
  const players = new Map<Card, Id[]>();
  for (const { card, member } of plan.units)
    if (card !== null && member !== null && room.present.has(member) && isDrilled(card))
      players.set(card, [...(players.get(card) ?? []), member]);
  let { file } = planned;
  for (const [card, members] of players) file = withCardRaised(file, card, members, at);
  return { ...planned, file };
};

/** A run follows the drills of its song. */
export const AFTER_MS = 1000;

/** `input.t` is the end of the gig's day, `input.asOf` now; `today` the score at the end of today where a caller has it. */
export const outlookOf = (
  input: ScoreInput,
  room: Room,
  now: number,
  today: SongScore = scoreSong({ ...input, t: input.asOf }),
): SongOutlook => {
  const base = withPlanned(input, []);
  const readings = readSong(base);
  const { plan } = readings;
  const scope = { of: "cards", cards: cardsOf(plan).map(({ id }) => id) } as const;
  const drill = seatedTonight(plannedTake(base.file, plan, { kind: "drill", scope, at: now }), plan, room);
  const run = seatedTonight(
    plannedTake(base.file, plan, { kind: "run", scope: { of: "whole" }, at: now + AFTER_MS }),
    plan,
    room,
  );
  const withRun = withPlanned(base, [run]);
  const withDrill = drilledInput(base, plan, [drill], room, now);
  const withBoth = drilledInput(base, plan, [drill, run], room, now);
  const [untouched, ran, drilled, both] = [base, withRun, withDrill, withBoth].map((one, i) =>
    scoresOf(i === 0 ? readings : readSong(one), one),
  ) as [readonly number[], readonly number[], readonly number[], readonly number[]];
  const anybody = run.seats.length > 0;
  const units = plan.units.map((unit, i): UnitOutlook => {
    const here = unit.of === "band" ? anybody : unit.member !== null && room.present.has(unit.member);
    const is = (r: readonly number[]): number => r[i] ?? 0;
    return {
      unit,
      here,
      level: today.units[i]?.status?.level ?? 0,
      now: today.units[i]?.own?.r ?? 0,
      untouched: is(untouched),
      run: here ? is(ran) : is(untouched),
      drilled: here ? is(drilled) : is(untouched),
      drilledRun: here ? is(both) : is(untouched),
    };
  });
  return { input: base, plan, before: songOf(units, ({ untouched: r }) => r), today: today.score, units };
};

/**
 * What each unit counts for in the song when its player's own r is given: a shared detail its weaker half, an empty chair
 * nothing. In the order of `units`.
 */
export const countedFor = (
  units: readonly UnitOutlook[],
  r: (unit: UnitOutlook) => number,
): readonly number[] => {
  const own = units.map((outlook) =>
    outlook.unit.of !== "band" && outlook.unit.member === null ? 0 : r(outlook),
  );
  const weakest = new Map<Id, number>();
  units.forEach(({ unit }, i) => {
    if (unit.card !== null && unit.chairs.length > 1)
      weakest.set(unit.card.id, Math.min(weakest.get(unit.card.id) ?? 1, own[i] ?? 0));
  });
  return units.map(
    ({ unit }, i) => (unit.card !== null && unit.chairs.length > 1 ? weakest.get(unit.card.id) : own[i]) ?? 0,
  );
};

/** The song's score, 0 to 1, from its players' own r. */
const songOf = (units: readonly UnitOutlook[], r: (unit: UnitOutlook) => number): number =>
  countedFor(units, r).reduce((sum, counted, i) => sum + (units[i]?.unit.share ?? 0) * counted, 0);
