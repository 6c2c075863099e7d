/** From a song's log to what it says about one unit. */
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Settings } from "../board/settings.ts";
import type { Take, TakeKind } from "../board/take.ts";
import { addedLight } from "./lit.ts";
import {
  cardSlip,
  cleanEvent,
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
  /** Moment (ms) of the last clean take by the kind it counts as; −∞ when there is none. */
  readonly latest: Readonly<Record<TakeKind, number>>;
  /** Each slip with what was lit after it, latest first. */
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
  const { chair } = unit;
  if (chair === null) return [];
  const events: UnitEvent[] = [];
  for (const logged of seated) {
    const { take, clean, cleanAlone } = logged;
    if (take.at < unit.since) continue;
    const onPart = partSlip(logged, chair);
    const severity = unit.card === null ? onPart : cardSlip(logged, unit.card.id, chair);
    if (severity > 0) {
      events.push(slipEvent(take, kindFor(unit, take), severity));
    } else if (onPart === 0 && clean !== null && cleanAlone !== null && covers(unit, take, file)) {
      events.push(kindFor(unit, take) === "solo" ? cleanAlone : clean);
    }
  }
  return events;
};

const covers = (unit: Unit, { scope }: Take, file: Pick<SongFile, "sections">): boolean => {
  if (scope.of === "whole") return true;
  return unit.card === null
    ? unit.statusId !== null && coversPart(scope, file, unit.statusId)
    : coversCard(scope, file, unit.card);
};

const kindFor = (unit: Unit, take: Take): TakeKind =>
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
    let counted = 0;
    for (const { chair, holder } of needed) {
      if (severity > 0 ? wasTaken(take, chair) : holder !== null && satOn(take, chair, holder)) counted++;
    }
    const share = counted / needed.length;
    if (share < 0.5) continue;
    events.push(
      severity > 0
        ? slipEvent(take, take.kind, severity)
        : cleanEvent(take, take.kind, share * share * qualityOf(take), settings),
    );
  }
  return events;
};

const NEVER = Number.NEGATIVE_INFINITY;
const isSolo = (event: UnitEvent): boolean => event.kind === "solo";

/** Sums events up, from the last to the first: what is lit after a slip is then what has been added so far. */
export const weighEvents = (events: readonly UnitEvent[], settings: Settings): UnitEvidence => {
  if (events.length === 0) return NO_EVIDENCE;
  const latest = { solo: NEVER, drill: NEVER, run: NEVER, gig: NEVER };
  const slips: { severity: number; litAfter: number }[] = [];
  const solo = events.some(isSolo);
  let lit = 0;
  let litTogether = 0;
  for (let i = events.length - 1; i >= 0; i--) {
    const event = events[i];
    if (event === undefined) continue;
    if (event.outcome === "slip") {
      slips.push({ severity: event.severity, litAfter: lit });
      continue;
    }
    if (latest[event.kind] === NEVER) latest[event.kind] = event.at;
    lit += addedLight(events, i, settings.g);
    if (solo) litTogether += addedLight(events, i, settings.g, isSolo);
  }
  const lastClean = Math.max(latest.solo, latest.drill, latest.run, latest.gig);
  return { events, lit, litTogether: solo ? litTogether : lit, lastClean, latest, slips };
};

/** Evidence of a unit about which the log says nothing. */
export const NO_EVIDENCE: UnitEvidence = {
  events: [],
  lit: 0,
  litTogether: 0,
  lastClean: NEVER,
  latest: { solo: NEVER, drill: NEVER, run: NEVER, gig: NEVER },
  slips: [],
};
