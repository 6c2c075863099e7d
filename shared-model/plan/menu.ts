/** The ways to spend room time on one song, each with its minutes and what is to be expected of it. */
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import type { PlannedBlock } from "../board/rehearsal.ts";
import { countedFor, type SongOutlook, type UnitOutlook } from "./outlook.ts";

/** Starting values, common practice with no published source. */
const DRILL_WORKS = 0.85;
const DRILL_MINUTES = 4;
const SECTION_MINUTES = 6;
const SECTION_MINUTES_PER_DETAIL = 0.5;
/** Talk before the next thing. */
const AROUND_RUN_MINUTES = 1;
/** A song whose length nobody wrote down. */
const USUAL_LENGTH_SECONDS = 240;
const DRILLS_AT_MOST = 4;

export interface PlanChoice {
  readonly block: PlannedBlock;
  readonly drilled: ReadonlySet<Id>;
  /** Rise of the song's score on the night that is to be expected, 0 to 1. */
  readonly gain: number;
}

/** Chance that at least one of so many runs goes clean. */
const cleanIn = (p: number, runs: number): number => 1 - (1 - p) ** runs;

/** The r a unit's player is to be expected to have on the night after this plan. */
export const expectedR = (
  { unit, here, now, untouched, run, drilled, drilledRun }: UnitOutlook,
  { runs, cards }: { readonly runs: number; readonly cards: ReadonlySet<Id> },
): number => {
  if (!here) return untouched;
  const chance = cleanIn(now, runs);
  const played = chance * run + (1 - chance) * untouched;
  if (unit.card === null || !cards.has(unit.card.id)) return played;
  const afterDrill = cleanIn(Math.max(now, DRILL_WORKS), runs);
  return DRILL_WORKS * (afterDrill * drilledRun + (1 - afterDrill) * drilled) + (1 - DRILL_WORKS) * played;
};

/** Chance that everything a gate could fail on goes as planned: each drill works, and every must runs clean. */
export const chanceOf = (
  { units }: SongOutlook,
  { drilled, block: { runs } }: Pick<PlanChoice, "drilled" | "block">,
): number => {
  let chance = DRILL_WORKS ** drilled.size;
  if (runs === 0) return chance;
  for (const { unit, here, now } of units) {
    if (!here || unit.card?.weight !== "must") continue;
    chance *= cleanIn(drilled.has(unit.card.id) ? Math.max(now, DRILL_WORKS) : now, runs);
  }
  return chance;
};

/**
 * Details for the room: shared, with two or more of their players here, and not locked in by all of them. What one player
 * can learn alone is homework.
 */
const openShared = ({ units }: SongOutlook): readonly Card[] => {
  const players = new Map<Card, UnitOutlook[]>();
  for (const outlook of units) {
    const { card } = outlook.unit;
    if (card === null || outlook.unit.chairs.length < 2 || !outlook.here) continue;
    players.set(card, [...(players.get(card) ?? []), outlook]);
  }
  return [...players]
    .filter(([, here]) => here.length > 1 && here.some(({ level }) => level < 3))
    .map(([card]) => card);
};

/**
 * Gain of each unit under a plan. Who is not in the room gains nothing, not even by a partner who catches up: what comes of
 * that shows when they play it together.
 */
const unitGains = (
  units: readonly UnitOutlook[],
  runs: number,
  cards: ReadonlySet<Id>,
): readonly number[] => {
  const before = countedFor(units, ({ untouched }) => untouched);
  const after = countedFor(units, (unit) => expectedR(unit, { runs, cards }));
  return units.map(({ unit, here }, i) => (here ? unit.share * ((after[i] ?? 0) - (before[i] ?? 0)) : 0));
};

/** Every plan for one song; empty where nobody who plays it is here. */
export const menuOf = (outlook: SongOutlook): readonly PlanChoice[] => {
  const { units, input } = outlook;
  if (!units.some(({ here, unit }) => here && unit.of !== "band")) return [];
  const { song, sections } = input.file;
  const runMinutes = (song.length ?? USUAL_LENGTH_SECONDS) / 60 + AROUND_RUN_MINUTES;
  const gainOf = (runs: number, cards: ReadonlySet<Id>): number =>
    unitGains(units, runs, cards).reduce((sum, gain) => sum + gain, 0);
  const choice = (
    runs: 0 | 1 | 2,
    cards: readonly Card[],
    section: Id | null,
    minutes: number,
  ): PlanChoice => {
    const drilled = new Set(cards.map(({ id }) => id));
    return {
      block: { song: song.id, runs, cards: [...drilled], section, minutes: minutes + runs * runMinutes },
      drilled,
      gain: gainOf(runs, drilled),
    };
  };
  const open = [...openShared(outlook)]
    .map((card) => ({ card, gain: gainOf(0, new Set([card.id])) }))
    .sort((a, b) => b.gain - a.gain || (a.card.id < b.card.id ? -1 : 1))
    .map(({ card }) => card);
  const drills = open.slice(0, DRILLS_AT_MOST).flatMap((_, i) => {
    const cards = open.slice(0, i + 1);
    return ([0, 1] as const).map((runs) => choice(runs, cards, null, DRILL_MINUTES * cards.length));
  });
  const bySection = sections.flatMap(({ id }) => {
    const cards = open.filter(({ where }) => where.from?.section === id);
    if (cards.length < 2) return [];
    const minutes = SECTION_MINUTES + SECTION_MINUTES_PER_DETAIL * cards.length;
    return ([0, 1] as const).map((runs) => choice(runs, cards, id, minutes));
  });
  return [choice(1, [], null, 0), choice(2, [], null, 0), ...drills, ...bySection];
};

/** What of a plan's gain falls to each unit, biggest first; units that gain nothing are left out. They sum to the gain. */
export const gainsOf = (
  { units }: SongOutlook,
  { drilled, block: { runs } }: Pick<PlanChoice, "drilled" | "block">,
): readonly { readonly outlook: UnitOutlook; readonly gain: number }[] => {
  const gains = unitGains(units, runs, drilled);
  return units
    .map((outlook, i) => ({ outlook, gain: gains[i] ?? 0 }))
    .filter(({ gain }) => gain !== 0)
    .sort((a, b) => b.gain - a.gain);
};
