/**
 * What a screen shows of one part (a cell of the board): its details with everybody's status, and the part itself.
 * One reading for the board's cells, the open part and a member's own list, so that they never disagree.
 */
import type { Chair } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import type { Card, Weight } from "../board/card.ts";
import { type Id, partCardId } from "../board/ids.ts";
import { castingOf } from "../board/line-up.ts";
import type { Casting } from "../board/song.ts";
import type { Level, Status } from "../board/status.ts";
import type { EffectiveStatus } from "../readiness/effective-status.ts";
import type { SongScore, UnitScore } from "../readiness/song-score.ts";

/** One player's standing on one detail. */
export interface Standing {
  readonly chair: Id;
  /** Null = nobody on the chair. */
  readonly member: Id | null;
  /** Status id to mark: the card's, or the part card's. */
  readonly statusId: Id;
  /** What counts; 0 while nobody is on the chair. */
  readonly level: Level;
  /** What the player said. */
  readonly marked: Level;
  readonly effective: EffectiveStatus | null;
  /** The stored mark behind it: who, when, from → to. */
  readonly mark: Status | null;
  /** The last event on it was a slip. */
  readonly slipped: boolean;
  /** Locked in by the player, but held back until it was played together. */
  readonly waiting: boolean;
}

export interface DetailLine {
  readonly card: Card;
  /** This part's player first, then the partners in column order. */
  readonly standings: readonly Standing[];
}

const sameStanding = (a: Standing, b: Standing): boolean =>
  (Object.keys(a) as (keyof Standing)[]).every((fact) => a[fact] === b[fact]);

/** True when two readings of a detail show the same: what a tick did not touch keeps its references. */
export const sameDetailLine = (a: DetailLine, b: DetailLine): boolean =>
  a.card === b.card &&
  a.standings.length === b.standings.length &&
  a.standings.every((standing, i) => {
    const other = b.standings[i];
    return other !== undefined && sameStanding(standing, other);
  });

export interface PartView {
  readonly chair: Chair;
  readonly casting: Casting;
  readonly member: Id | null;
  /**
   * tacet = nothing to play; uncovered = nobody on the chair; unknown = nobody has written or said anything;
   * nothing special = the player says there is nothing to note; open = has details.
   */
  readonly state: "tacet" | "uncovered" | "unknown" | "nothing special" | "open";
  /** The part itself. Null for a tacet part. */
  readonly itself: Standing | null;
  /** Musts first, then lifts, then polish; playing order within each. Cover details that apply are included. */
  readonly details: readonly DetailLine[];
}

const RANK: { readonly [W in Weight]: number } = { must: 0, lift: 1, polish: 2 };

const unitKey = (statusId: Id, chair: Id): string => `${statusId} ${chair}`;

/** Units of a score by status id and chair. */
const unitsByKey = (score: SongScore): ReadonlyMap<string, UnitScore> =>
  new Map(
    [...score.units, ...score.covers].flatMap((unit) => {
      const { statusId, chair } = unit.unit;
      return statusId === null || chair === null ? [] : [[unitKey(statusId, chair), unit] as const];
    }),
  );

const index = new WeakMap<SongScore, ReadonlyMap<string, UnitScore>>();
const unitsOf = (score: SongScore): ReadonlyMap<string, UnitScore> => {
  const known = index.get(score);
  if (known !== undefined) return known;
  const units = unitsByKey(score);
  index.set(score, units);
  return units;
};

const standingOf = (
  file: SongFile,
  score: SongScore,
  statusId: Id,
  chair: Id,
  member: Id | null,
): Standing => {
  const unit = unitsOf(score).get(unitKey(statusId, chair));
  const mark = member === null ? null : (file.statuses.get(statusId)?.get(member) ?? null);
  const effective = unit?.status ?? null;
  return {
    chair,
    member,
    statusId,
    level: effective?.level ?? mark?.level ?? 0,
    marked: mark?.level ?? 0,
    effective,
    mark,
    slipped: effective?.reason.is === "slipped since" || unit?.evidence.last?.outcome === "slip",
    waiting: effective?.reason.is === "needs a run together",
  };
};

/** What a part view is read from: a song with its score for one line-up. */
export interface PartSource {
  readonly file: SongFile;
  readonly chairs: readonly Chair[];
  readonly lineUp: ReadonlyMap<Id, Id | null>;
  readonly score: SongScore;
}

/** The standing of whoever is on a chair, on one detail or part. */
export const standingOn = ({ file, lineUp, score }: PartSource, statusId: Id, chair: Id): Standing =>
  standingOf(file, score, statusId, chair, lineUp.get(chair) ?? null);

const detailsOf = ({ file, chairs, lineUp, score }: PartSource, chair: Chair): readonly DetailLine[] => {
  const applies = (card: Card): boolean =>
    card.chairs.includes(chair.id) &&
    (card.without === undefined || (lineUp.get(card.without) ?? null) === null);
  const partners = (card: Card): readonly Id[] => [
    chair.id,
    ...chairs.map(({ id }) => id).filter((id) => id !== chair.id && card.chairs.includes(id)),
  ];
  return file.cards
    .filter(applies)
    .map((card, place) => ({ card, place }))
    .sort((a, b) => RANK[a.card.weight] - RANK[b.card.weight] || a.place - b.place)
    .map(({ card }) => ({
      card,
      standings: partners(card)
        .filter((id) => id === chair.id || castingOf(file, id).plays)
        .map((id) => standingOf(file, score, card.id, id, lineUp.get(id) ?? null)),
    }));
};

/** Reads one part. */
export const partView = (source: PartSource, chair: Chair): PartView => {
  const { file, lineUp, score } = source;
  const casting = castingOf(file, chair.id);
  const member = lineUp.get(chair.id) ?? null;
  if (!casting.plays) return { chair, casting, member, state: "tacet", itself: null, details: [] };
  const itself = standingOf(file, score, partCardId(file.song.id, chair.id), chair.id, member);
  const details = detailsOf(source, chair);
  const unsaid = details.length === 0 && itself.level === 0;
  const state =
    member === null ? "uncovered"
    : details.length > 0 ? "open"
    : casting.nothingSpecial !== null && casting.nothingSpecial === member ? "nothing special"
    : unsaid ? "unknown"
    : "open"; // biome-ignore format: one decision
  return { chair, casting, member, state, itself, details };
};
