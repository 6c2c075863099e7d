/** Adds a unit's events up. */
import type { Settings } from "../board/settings.ts";
import type { TakeKind } from "../board/take.ts";
import { addedLight } from "./lit.ts";
import type { UnitEvent } from "./log.ts";

/** What the log says about a unit, at full brightness: independent of statuses and of the day it is read for. */
export interface UnitEvidence {
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
  /** What happened last; null when nothing did. */
  readonly last: UnitEvent | null;
  /** The events themselves, in order of (at, id); put together when asked for, because most are never looked at. */
  readonly events: () => readonly UnitEvent[];
}

/** The first `count` of a list that may be longer: one list serves many units. */
export interface Events {
  readonly list: readonly UnitEvent[];
  readonly count: number;
}

const NEVER = Number.NEGATIVE_INFINITY;

/** Sums events up, from the last to the first: what is lit after a slip is then what has been added so far. */
export const weighEvents = (
  { list, count }: Events,
  settings: Settings,
  again: () => Events,
): UnitEvidence => {
  const slips: { severity: number; litAfter: number }[] = [];
  const latest = { solo: NEVER, drill: NEVER, run: NEVER, gig: NEVER };
  let kinds = "";
  const solo = hasSolo(list, count);
  let lit = 0;
  let litTogether = 0;
  for (let i = count - 1; i >= 0; i--) {
    const event = list[i];
    if (event === undefined) continue;
    if (event.outcome === "slip") {
      slips.push({ severity: event.severity, litAfter: lit });
      continue;
    }
    lit += addedLight(list, i, count, settings.g, false);
    if (solo) litTogether += addedLight(list, i, count, settings.g, true);
    if (event.kind !== kinds) {
      kinds = event.kind;
      latest[event.kind] = Math.max(latest[event.kind], event.at);
    }
  }
  return {
    lit,
    litTogether: solo ? litTogether : lit,
    lastClean: Math.max(latest.solo, latest.drill, latest.run, latest.gig),
    latest,
    slips,
    last: list[count - 1] ?? null,
    events: () => {
      const read = again();
      return read.list.slice(0, read.count);
    },
  };
};

const hasSolo = (list: readonly UnitEvent[], count: number): boolean => {
  for (let i = 0; i < count; i++) if (list[i]?.kind === "solo") return true;
  return false;
};
