/**
 * What stands behind a song's score: every unit with its share, what it gives, what is lost on it, and the takes
 * it was read from. Contributions over all lines sum to the score, shares to 1.
 */
import type { SongFile } from "../board/board.ts";
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import { LEVEL_WORDS } from "../board/status.ts";
import type { UnitEvent } from "../readiness/log.ts";
import { cardName, takeName } from "../readiness/names.ts";
import type { SongScore, UnitScore } from "../readiness/song-score.ts";
import { apportion, pointsOf } from "./points.ts";

/** One event of the log as a line. */
export interface EventLine {
  /** Id of the take. */
  readonly take: string;
  /** Moment it was logged, ms. */
  readonly at: number;
  readonly outcome: "clean" | "wobble" | "slip";
  /** `slip in the run of 4 March`; says where a take counts as work alone. */
  readonly words: string;
}

export interface UnitLine {
  readonly key: string;
  /** Null for the part itself and the band together. */
  readonly card: Card | null;
  /** `Ending: 'Choke on 4-and'`, `the part itself`, `the band together`. */
  readonly title: string;
  readonly share: number;
  /** What counts for the song, 0 to 1. */
  readonly r: number;
  /** share × r. */
  readonly contribution: number;
  /** share − contribution. */
  readonly lost: number;
  /** The status that counts, in words; empty for the band together and while nobody is on the chair. */
  readonly status: string;
  /** The last event was a slip. */
  readonly slipped: boolean;
  /** What a partner of a shared detail holds back, of the unit, 0 to 1. */
  readonly waiting: number;
  /** Latest first, at most `EVENTS_SHOWN`. */
  readonly events: readonly EventLine[];
  /** Events that are not shown. */
  readonly moreEvents: number;
}

export interface PartLines {
  /** Null for the band together. */
  readonly chair: Id | null;
  /** Null for the band together, and while nobody is on the chair. */
  readonly member: Id | null;
  readonly share: number;
  readonly contribution: number;
  readonly lost: number;
  /** Contribution and share in whole points: over all parts they add up to the score's points and to 100. */
  readonly points: number;
  readonly ofPoints: number;
  /** What loses most first. */
  readonly units: readonly UnitLine[];
}

export const EVENTS_SHOWN = 3;

const OUTCOME_WORDS = { clean: "clean in", wobble: "a wobble in", slip: "slipped in" } as const;

const eventLine = ({ take, at, outcome, kind }: UnitEvent): EventLine => {
  const what = outcome === "slip" ? "slip" : take.feel === "wobble" ? "wobble" : "clean";
  const alone =
    kind === "solo" && take.kind !== "solo" ? ", without its partners, so it counts as work alone" : "";
  return { take: take.id, at, outcome: what, words: `${OUTCOME_WORDS[what]} ${takeName(take)}${alone}` };
};

const unitLine = (file: SongFile, of: UnitScore): UnitLine => {
  const { unit, evidence, status } = of;
  const events = evidence.events();
  return {
    key: `${unit.of} ${unit.statusId ?? ""} ${unit.chair ?? ""}`,
    card: unit.card,
    title:
      unit.card !== null
        ? cardName(file, unit.card)
        : unit.of === "part"
          ? "the part itself"
          : "whole runs and gigs",
    share: unit.share,
    r: of.r,
    contribution: of.contribution,
    lost: unit.share - of.contribution,
    status: status === null ? "" : LEVEL_WORDS[status.level],
    slipped: evidence.last?.outcome === "slip",
    waiting: of.split.waiting,
    events: events.slice(-EVENTS_SHOWN).reverse().map(eventLine),
    moreEvents: Math.max(0, events.length - EVENTS_SHOWN),
  };
};

/** Groups the units of a score by part, the band together as one of them; what loses most comes first. */
export const scoreLines = (file: SongFile, score: SongScore): readonly PartLines[] => {
  const parts = new Map<Id | null, UnitScore[]>();
  for (const of of score.units) {
    const known = parts.get(of.unit.chair);
    if (known === undefined) parts.set(of.unit.chair, [of]);
    else known.push(of);
  }
  const lines = [...parts].map(([chair, units]) => {
    const of = units.map((unit) => unitLine(file, unit));
    return {
      chair,
      member: units[0]?.unit.member ?? null,
      share: sum(of, ({ share }) => share),
      contribution: sum(of, ({ contribution }) => contribution),
      lost: sum(of, ({ lost }) => lost),
      units: of.sort((a, b) => b.lost - a.lost || (a.key < b.key ? -1 : 1)),
    };
  });
  const points = apportion(
    lines.map(({ contribution }) => contribution),
    pointsOf(score.score),
  );
  const ofPoints = apportion(
    lines.map(({ share }) => share),
    100,
  );
  return lines
    .map((line, i): PartLines => ({ ...line, points: points[i] ?? 0, ofPoints: ofPoints[i] ?? 0 }))
    .sort((a, b) => b.lost - a.lost || ((a.chair ?? "~") < (b.chair ?? "~") ? -1 : 1));
};

const sum = <T>(items: readonly T[], of: (item: T) => number): number =>
  items.reduce((all, item) => all + of(item), 0);
