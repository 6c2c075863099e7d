/**
 * A song's score and where every point of it comes from.
 * Governing rule: 1 = said + shown + unsaid + slipped + waiting + uncovered, and score = said + shown,
 * for the song as for each of its units.
 */
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Status } from "../board/status.ts";
import { bandEvents } from "./band-events.ts";
import {
  type EffectiveStatus,
  judgeStatus,
  playedTogether,
  type Standing,
  standingOf,
  type Together,
} from "./effective-status.ts";
import { seatedTakes, sourceOf, unitEvents } from "./evidence.ts";
import type { UnitEvent } from "./log.ts";
import type { SongPlan, Unit } from "./plan.ts";
import type { ScoreInput } from "./score-input.ts";
import { type OwnScore, scoreUnit } from "./unit-score.ts";
import { type Events, type UnitEvidence, weighEvents } from "./weigh.ts";

/** Where the whole of a unit or a song goes; sums to 1. */
export interface Split {
  /** Players' claims. */
  readonly said: number;
  /** The log. */
  readonly shown: number;
  /** Neither said nor shown yet. */
  readonly unsaid: number;
  /** Slips not washed out. */
  readonly slipped: number;
  /** Known by this player, not yet by the partners of a shared detail. */
  readonly waiting: number;
  /** Nobody on the chair. */
  readonly uncovered: number;
}

export interface UnitScore {
  readonly unit: Unit;
  /** What counts for the song: for a shared detail the minimum over its chairs; 0 while uncovered. */
  readonly r: number;
  /** The player's own score, which feeds the member's; 0 while uncovered. */
  readonly ownR: number;
  /** share × r: exactly what the unit adds to the song's score. */
  readonly contribution: number;
  /** Of this unit, before its share; sums to 1. */
  readonly split: Split;
  /** The workings; null while uncovered. */
  readonly own: OwnScore | null;
  /** Null while uncovered, and for the band together. */
  readonly status: EffectiveStatus | null;
  /** The events behind it. */
  readonly evidence: UnitEvidence;
}

export interface SongScore {
  /** 0 to 1. */
  readonly score: number;
  readonly split: Split;
  /** How much of it rests on the log; 0 = ticks only, "mostly claims" below .5. */
  readonly logShare: number;
  /** Expected must slips: Σ over musts of (1 − r). For ranking risk. */
  readonly trouble: number;
  /** In canonical order; contributions sum to `score`, shares to 1. */
  readonly units: readonly UnitScore[];
  /** Cover cards whose chair is empty: for gates and homework, with share 0. */
  readonly covers: readonly UnitScore[];
  readonly plan: SongPlan;
}

/** What the log says about each unit of a plan; independent of statuses and of the day. */
export interface Readings {
  readonly plan: SongPlan;
  /** For `plan.units`, then `plan.covers`. */
  readonly units: readonly Reading[];
}

export interface Reading {
  readonly unit: Unit;
  readonly evidence: UnitEvidence;
  readonly standing: Standing;
}

/** Scores a song from scratch. Pure: the same set of inputs gives the same bits. */
export const scoreSong = (input: ScoreInput): SongScore => {
  const { plan, units } = readSong(input);
  return sumUp(
    plan,
    units.map((reading) => ownScore(reading, statusFor(input.file, reading.unit), input)),
  );
};

/** Reads the log for every unit; `known` may answer for one whose reading would come out the same. */
export const readSong = (
  input: ScoreInput,
  known?: (unit: Unit, i: number) => Reading | undefined,
): Readings => {
  const { plan, read } = readerOf(input);
  return { plan, units: [...plan.units, ...plan.covers].map((unit, i) => known?.(unit, i) ?? read(unit)) };
};

/** Apart from `readSong`, because what a reading keeps hold of must not be the readings before it. */
const readerOf = (input: ScoreInput): { readonly plan: SongPlan; readonly read: (unit: Unit) => Reading } => {
  const { plan, source } = sourceOf(input);
  const { log, attendance, mentions } = source;
  const seated = new Map(
    plan.parts.map(({ chair }, column) => [chair, seatedTakes(log, attendance, column, chair)]),
  );
  const shared = new Map<Id, Together>();
  const togetherFor = (unit: Unit): Together | null => {
    if (unit.card === null || unit.chairs.length < 2) return null;
    const known = shared.get(unit.card.id) ?? playedTogether(unit, source, input.lineUp);
    shared.set(unit.card.id, known);
    return known;
  };
  const eventsOf = (unit: Unit, into?: UnitEvent[]): Events =>
    unit.chair === null
      ? bandEvents(plan, source, input.settings)
      : unitEvents(unit, seated.get(unit.chair) ?? [], source, into);
  const buffer: UnitEvent[] = [];
  const read = (unit: Unit): Reading => ({
    unit,
    standing: standingOf(unit, mentions, togetherFor(unit)),
    evidence: weighEvents(eventsOf(unit, buffer), input.settings, () => eventsOf(unit)),
  });
  return { plan, read };
};

/** A unit scored for its own player, before partners are looked at. */
export interface OwnResult {
  readonly unit: Unit;
  readonly evidence: UnitEvidence;
  readonly own: OwnScore | null;
  readonly status: EffectiveStatus | null;
}

/** The mark a unit's player has on it. */
export const statusFor = (file: Pick<SongFile, "statuses">, unit: Unit): Status | undefined =>
  unit.statusId === null || unit.member === null
    ? undefined
    : file.statuses.get(unit.statusId)?.get(unit.member);

const NO_CLAIM = { level: 0, anchor: Number.NEGATIVE_INFINITY } as const;

/** Scores one reading under one mark at `t`. */
export const ownScore = (
  reading: Reading,
  marked: Status | undefined,
  { settings, t }: Pick<ScoreInput, "settings" | "t">,
): OwnResult => {
  const { unit, evidence, standing } = reading;
  if (unit.of === "band") {
    return { unit, evidence, own: scoreUnit(evidence, NO_CLAIM, 1, settings, t), status: null };
  }
  if (unit.member === null) return { unit, evidence, own: null, status: null };
  const status = judgeStatus(marked, standing);
  const claim = { level: status.level, anchor: marked?.anchor ?? Number.NEGATIVE_INFINITY };
  const v = unit.of === "card" && status.level < 2 ? settings.vNoticed : 1;
  return { unit, evidence, own: scoreUnit(evidence, claim, v, settings, t), status };
};

/**
 * Puts units together: partners of shared cards first, then sums in canonical order. Units of `before` that come out the
 * same keep their reference.
 */
export const sumUp = (plan: SongPlan, results: readonly OwnResult[], before?: SongScore): SongScore => {
  const weakest = new Map<Id, number>();
  for (const { unit, own } of results) {
    if (unit.card === null || unit.chairs.length < 2) continue;
    weakest.set(unit.card.id, Math.min(weakest.get(unit.card.id) ?? 1, own?.r ?? 0));
  }
  const known = before === undefined ? [] : [...before.units, ...before.covers];
  const scored = results.map((result, u) => inSong(result, weakest, known[u]));
  const units = scored.slice(0, plan.units.length);
  const split = { said: 0, shown: 0, unsaid: 0, slipped: 0, waiting: 0, uncovered: 0 };
  const total = { score: 0, logShare: 0, trouble: 0 };
  for (const { unit, own, r, contribution, split: of } of units) {
    split.said += unit.share * of.said;
    split.shown += unit.share * of.shown;
    split.unsaid += unit.share * of.unsaid;
    split.slipped += unit.share * of.slipped;
    split.waiting += unit.share * of.waiting;
    split.uncovered += unit.share * of.uncovered;
    total.score += contribution;
    if (own !== null) total.logShare += unit.share * ((own.A + own.B) / own.D);
    if (unit.card?.weight === "must") total.trouble += 1 - r;
  }
  return { ...total, split, units, covers: scored.slice(plan.units.length), plan };
};

const UNCOVERED: Split = { said: 0, shown: 0, unsaid: 0, slipped: 0, waiting: 0, uncovered: 1 };

const inSong = (
  { unit, own, status, evidence }: OwnResult,
  weakest: ReadonlyMap<Id, number>,
  known: UnitScore | undefined,
): UnitScore => {
  if (own === null) {
    return { unit, r: 0, ownR: 0, contribution: 0, split: UNCOVERED, own, status, evidence };
  }
  const r = unit.card === null || unit.chairs.length < 2 ? own.r : (weakest.get(unit.card.id) ?? own.r);
  // A unit's own score is made for it and its mark, so the status is the same as well.
  if (known?.own === own && known.unit === unit && known.r === r) return known;
  const kept = own.r > 0 ? r / own.r : 0;
  const split = {
    said: own.said * kept,
    shown: own.shown * kept,
    unsaid: own.unsaid,
    slipped: own.slipped,
    waiting: own.r - r,
    uncovered: 0,
  };
  return { unit, r, ownR: own.r, contribution: unit.share * r, split, own, status, evidence };
};
