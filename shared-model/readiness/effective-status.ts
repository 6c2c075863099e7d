/**
 * What a mark is worth today. Derived, never stored:
 * a slip after it takes *locked in* back to *practised*; a shared detail is locked in only once it was played
 * together; a mark made before the detail was changed with "learn again" says no more than *noticed*.
 */
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import type { LineUp } from "../board/line-up.ts";
import { LEVELS, type Level, type Status } from "../board/status.ts";
import type { Take } from "../board/take.ts";
import { type EventSource, sourceOf } from "./evidence.ts";
import { cardSlip, type LoggedTake, type Mentions, partSlip, satOn } from "./log.ts";
import type { Unit } from "./plan.ts";
import { coversCard } from "./scope.ts";
import type { ScoreInput } from "./score-input.ts";
import { sinceOf } from "./since.ts";

export type StatusReason =
  | { readonly is: "as marked" }
  /** The detail was changed with "learn again" after the mark. */
  | { readonly is: "changed since"; readonly since: number }
  /** The player slipped on it after the mark. */
  | { readonly is: "slipped since"; readonly take: Take }
  /**
   * Shared, and never played together since it was written: `missing` are the partners of this line-up
   * without such a run, `vacant` the chairs nobody is on.
   */
  | { readonly is: "needs a run together"; readonly missing: readonly Id[]; readonly vacant: readonly Id[] };

export interface EffectiveStatus {
  /** What counts. Never above `marked`. */
  readonly level: Level;
  /** What the player said. */
  readonly marked: Level;
  readonly reason: StatusReason;
}

/** What the log holds against or for a mark of one player on one card. */
export interface Standing {
  readonly since: number;
  /** The player's latest take with a slip on it since then. */
  readonly lastSlip: Take | null;
  /** Null = locked in can hold: not shared, or played together since then. */
  readonly apart: { readonly missing: readonly Id[]; readonly vacant: readonly Id[] } | null;
}

const AS_MARKED: StatusReason = { is: "as marked" };
/** One shared answer per level: most marks are worth what they say. */
const asMarked = LEVELS.map((level): EffectiveStatus => ({ level, marked: level, reason: AS_MARKED }));

/** Judges a mark. No mark counts as *not started*. */
export const judgeStatus = (status: Status | undefined, standing: Standing): EffectiveStatus => {
  const marked = status?.level ?? 0;
  // Compared with the anchor, not the moment of the mark: lowering keeps the anchor, so it can never win a card back.
  const anchor = status?.anchor ?? Number.NEGATIVE_INFINITY;
  if (marked >= 2 && anchor < standing.since) {
    return { level: 1, marked, reason: { is: "changed since", since: standing.since } };
  }
  if (marked === 3 && standing.lastSlip !== null && standing.lastSlip.at > anchor) {
    return { level: 2, marked, reason: { is: "slipped since", take: standing.lastSlip } };
  }
  if (marked === 3 && standing.apart !== null) {
    return { level: 2, marked, reason: { is: "needs a run together", ...standing.apart } };
  }
  return asMarked[marked] ?? { level: marked, marked, reason: AS_MARKED };
};

/** What the log says about the marks on one unit; `together` answers for shared cards. */
export const standingOf = (unit: Unit, mentions: Mentions, together: Together | null): Standing => ({
  since: unit.since,
  lastSlip: unit.member === null ? null : lastSlipBy(unit, unit.member, mentions),
  apart: unit.member === null || together === null ? null : together.apart(unit.member),
});

const lastSlipBy = (unit: Unit, member: Id, mentions: Mentions): Take | null => {
  const takes = mentions.get(unit.statusId ?? "");
  const last = takes?.findLast((logged) => logged.take.at >= unit.since && slippedOn(unit, member, logged));
  return last?.take ?? null;
};

/** A status is per card and player, so a slip counts on whichever of the card's chairs the player sat. */
const slippedOn = ({ card, chairs }: Unit, member: Id, logged: LoggedTake): boolean =>
  chairs.some(
    (chair) =>
      (card === null ? partSlip(logged, chair) : cardSlip(logged, card.id, chair)) > 0 &&
      satOn(logged.take, chair, member),
  );

/** Whether a shared card was played together by this line-up. */
export interface Together {
  /** Null when it was; else who is missing, seen from one of its players. */
  readonly apart: (member: Id) => Standing["apart"];
}

/**
 * Looks for a run or gig since the card's `since`, not stopped, through the card, without a slip on it,
 * with this line-up's holder on each of its chairs. An empty chair can never be together.
 */
export const playedTogether = (
  { card, chairs, since }: Pick<Unit, "card" | "chairs" | "since">,
  { log, attendance, file }: EventSource,
  lineUp: LineUp,
): Together => {
  const columns = chairs.map(attendance.column);
  const counts = (logged: LoggedTake): boolean =>
    isRun(logged) && logged.take.at >= since && card !== null && isCleanOf(card, logged, file);
  const whole = log.some(
    (logged) => columns.every((column) => attendance.held(logged.place, column)) && counts(logged),
  );
  if (whole) return { apart: () => null };
  const vacant = chairs.filter((chair) => holderOf(lineUp, chair) === null);
  const runs = log.filter(counts).map(({ take }) => take);
  return {
    apart: (member) => {
      const partners = chairs.flatMap((chair) => {
        const holder = holderOf(lineUp, chair);
        return holder === null || holder === member ? [] : [{ chair, holder }];
      });
      const mine = runs.filter((take) => chairs.some((chair) => satOn(take, chair, member)));
      const never = partners.filter(({ chair, holder }) => !mine.some((take) => satOn(take, chair, holder)));
      const missing = never.length > 0 || vacant.length > 0 ? never : partners;
      return { missing: [...new Set(missing.map(({ holder }) => holder))], vacant };
    },
  };
};

/** A run or gig that was not stopped. */
const isRun = ({ take }: LoggedTake): boolean =>
  (take.kind === "run" || take.kind === "gig") && take.feel !== "stopped";

/** Through the card, without a slip on it by anybody. */
const isCleanOf = (card: Card, { take, cardSlips }: LoggedTake, file: EventSource["file"]): boolean =>
  coversCard(take.scope, file, card) && !cardSlips.some((slip) => slip.card === card.id);

const holderOf = (lineUp: LineUp, chair: Id): Id | null => lineUp.get(chair) ?? null;

/**
 * The effective status of one player on one card (or part card), for a screen that shows a single row.
 * `statusId` is a card id or a part card id; a card that counts for nothing is as marked.
 */
export const effectiveStatus = (input: ScoreInput, statusId: Id, member: Id): EffectiveStatus => {
  const status = input.file.statuses.get(statusId)?.get(member);
  const { plan, source } = sourceOf(input);
  const units = [...plan.units, ...plan.covers].filter((unit) => unit.statusId === statusId);
  const unit = units.find((candidate) => candidate.member === member) ?? units[0];
  if (unit === undefined) {
    const card = input.file.cards.find((candidate) => candidate.id === statusId);
    const since = card ? sinceOf(input.file, card) : 0;
    return judgeStatus(status, { since, lastSlip: null, apart: null });
  }
  const together = unit.chairs.length > 1 ? playedTogether(unit, source, input.lineUp) : null;
  return judgeStatus(status, standingOf({ ...unit, member }, source.mentions, together));
};
