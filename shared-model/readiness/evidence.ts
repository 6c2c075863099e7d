/** From a song's log to what it says about one unit. */
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Settings } from "../board/settings.ts";
import { TAKE_KINDS, type TakeKind } from "../board/take.ts";
import { lit } from "./lit.ts";
import {
  cardSlip,
  cleanEvent,
  type LoggedTake,
  partSlip,
  qualityOf,
  type SongLog,
  satOn,
  slipEvent,
  type UnitEvent,
  wasTaken,
} from "./log.ts";
import type { SongPlan, Unit } from "./plan.ts";
import { coversCard, coversPart } from "./scope.ts";

/** What the log says about a unit, at full brightness: independent of statuses and of the day it is read for. */
export interface UnitEvidence {
  /** In order of (at, id). */
  readonly events: readonly UnitEvent[];
  /** lit(all clean takes), in full takes. */
  readonly lit: number;
  /** lit(clean takes that are not solo). */
  readonly litTogether: number;
  /** Moment (ms) of the last clean take; −∞ when there is none. */
  readonly lastClean: number;
  /** Moment (ms) of the last clean take by the kind it counts as. */
  readonly latest: Readonly<Partial<Record<TakeKind, number>>>;
  /** Each slip with what was lit after it. */
  readonly slips: readonly { readonly severity: number; readonly litAfter: number }[];
}

/** The log seen from one chair of this line-up: the takes in which its holder sat there. */
export const seatedTakes = (log: SongLog, chair: Id, member: Id): SongLog =>
  log.filter((logged) => satOn(logged.take, chair, member));

/**
 * Events for a card or a part, from the takes its player sat in:
 * a slip on the unit beats everything; a slip on the chair without a card says nothing about the chair's cards,
 * neither clean nor slip, because nobody knows which of them it was; else a clean take that went through it.
 * A shared card without somebody on each of its chairs counts as solo work, whoever that somebody was:
 * the partner's own unit says what the partner knows.
 */
export const unitEvents = (
  unit: Unit,
  seated: SongLog,
  file: Pick<SongFile, "sections">,
): readonly UnitEvent[] => {
  const { chair, statusId } = unit;
  if (chair === null || statusId === null) return [];
  const events: UnitEvent[] = [];
  for (const logged of seated) {
    if (logged.take.at < unit.since) continue;
    const onPart = partSlip(logged, chair);
    const severity = unit.card === null ? onPart : cardSlip(logged, unit.card.id, chair);
    if (severity > 0) {
      events.push(slipEvent(logged.take, kindFor(unit, logged), severity));
      continue;
    }
    if (onPart > 0 || logged.clean === null || logged.cleanAlone === null) continue;
    const { scope } = logged.take;
    const covered =
      scope.of === "whole" ||
      (unit.card === null ? coversPart(scope, file, statusId) : coversCard(scope, file, unit.card));
    if (covered) events.push(kindFor(unit, logged) === "solo" ? logged.cleanAlone : logged.clean);
  }
  return events;
};

const kindFor = (unit: Unit, { take }: LoggedTake): TakeKind =>
  unit.chairs.length === 1 || unit.chairs.every((chair) => wasTaken(take, chair)) ? take.kind : "solo";

/**
 * Events for the band together: whole runs and gigs with at least half of the needed chairs.
 * Clean counts the needed players of this line-up who were there; an empty needed chair counts as absent,
 * so filling it can only help. A stop, or a slip nobody could place, is asked of the chairs that were taken,
 * by whomever, so that it does not depend on who is in the line-up either.
 */
export const bandEvents = (log: SongLog, plan: SongPlan, settings: Settings): readonly UnitEvent[] => {
  const needed = plan.parts.filter((part) => part.needed);
  const events: UnitEvent[] = [];
  if (needed.length === 0) return events;
  for (const { take, unattributed } of log) {
    if ((take.kind !== "run" && take.kind !== "gig") || take.scope.of !== "whole") continue;
    const severity = Math.max(unattributed, take.feel === "stopped" ? 1 : 0);
    if (severity > 0) {
      const taken = needed.filter((part) => wasTaken(take, part.chair)).length / needed.length;
      if (taken >= 0.5) events.push(slipEvent(take, take.kind, severity));
      continue;
    }
    const present = needed.filter((part) => part.holder !== null && satOn(take, part.chair, part.holder));
    const share = present.length / needed.length;
    if (share >= 0.5) events.push(cleanEvent(take, take.kind, share * share * qualityOf(take), settings));
  }
  return events;
};

const notSolo = (event: UnitEvent): boolean => event.kind !== "solo";

/** Sums events up. `events` must be in order of (at, id). */
export const weighEvents = (events: readonly UnitEvent[], settings: Settings): UnitEvidence => {
  const latest: Partial<Record<TakeKind, number>> = {};
  const slips: { severity: number; litAfter: number }[] = [];
  let solo = false;
  events.forEach((event, i) => {
    if (event.outcome === "slip") {
      slips.push({ severity: event.severity, litAfter: lit(events, settings.g, i + 1) });
    } else {
      latest[event.kind] = event.at;
      solo ||= event.kind === "solo";
    }
  });
  const all = lit(events, settings.g);
  return {
    events,
    lit: all,
    litTogether: solo ? lit(events, settings.g, 0, notSolo) : all,
    lastClean: TAKE_KINDS.reduce(
      (last, kind) => Math.max(last, latest[kind] ?? Number.NEGATIVE_INFINITY),
      Number.NEGATIVE_INFINITY,
    ),
    latest,
    slips,
  };
};

/** Evidence of a unit about which the log says nothing. */
export const NO_EVIDENCE: UnitEvidence = {
  events: [],
  lit: 0,
  litTogether: 0,
  lastClean: Number.NEGATIVE_INFINITY,
  latest: {},
  slips: [],
};
