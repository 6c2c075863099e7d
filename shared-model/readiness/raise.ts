/** What would raise a song most on the night: every single action tried, the exact differences sorted. */
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import type { SongPlan } from "./plan.ts";
import { firstMark, plannedTake, withCardRaised, withPlanned } from "./planned.ts";
import type { ScoreInput } from "./score-input.ts";
import { type SongScore, scoreSong } from "./song-score.ts";

export type RaiseAction =
  /** One clean run of the whole song by everybody who is in the line-up. */
  | { readonly do: "run" }
  /** Drill one detail: a clean drill by its players, each one level further on. */
  | { readonly do: "drill"; readonly card: Card; readonly members: readonly Id[] }
  /** Put somebody on an empty chair; `member` null = a newcomer who comes with every detail practised. */
  | { readonly do: "seat"; readonly chair: Id; readonly member: Id | null };

export interface Raise {
  readonly action: RaiseAction;
  /** The score on the night after this action alone, 0 to 1. */
  readonly after: number;
  /** `after` minus the score with nothing done; exact. */
  readonly difference: number;
}

/** Stands for somebody who is not on the board yet. */
const NEWCOMER = "~newcomer";

/**
 * Every single action, biggest difference first. `input.t` is the end of the gig day, `input.asOf` now:
 * the action is taken to happen now. `candidates` are members who could take an empty chair.
 * Cover cards are not part of the score, so drilling them is not among the actions.
 */
export const raiseMost = (input: ScoreInput, candidates: readonly Id[] = []): readonly Raise[] =>
  [...raiseEach(input, candidates)].sort(biggestFirst);

/** The actions of `raiseMost` one by one in no order, for a screen that computes them while it stays answerable. */
export function* raiseEach(input: ScoreInput, candidates: readonly Id[] = []): Generator<Raise, void> {
  yield* tryEach(input, (plan) => actionsFor(input, plan, candidates));
}

export type Drill = Extract<RaiseAction, { readonly do: "drill" }>;

/** The drills of `raiseEach` for the details that are asked about; the differences are the same. */
export function* raiseDetails(
  input: ScoreInput,
  isAsked: (card: Card) => boolean,
): Generator<Raise & { readonly action: Drill }, void> {
  yield* tryEach(input, (plan) => drillsFor(plan).filter(({ card }) => isAsked(card)));
}

function* tryEach<A extends RaiseAction>(
  input: ScoreInput,
  actionsIn: (plan: SongPlan) => readonly A[],
): Generator<Raise & { readonly action: A }, void> {
  const now = Math.min(input.asOf, input.t);
  // Without takes dated in the future, so that both sides of a difference read the same log.
  const base = withPlanned(input, []);
  const before = scoreSong(base);
  for (const action of actionsIn(before.plan)) {
    const after = scoreSong(taken(base, before, action, now)).score;
    yield { action, after, difference: after - before.score };
  }
}

/** The order of `raiseMost`: total, so that every device shows the same. */
export const biggestFirst = (a: Raise, b: Raise): number =>
  b.difference - a.difference || (keyOf(a.action) < keyOf(b.action) ? -1 : 1);

/** One drill for each detail that counts and that somebody plays. */
const drillsFor = (plan: SongPlan): readonly Drill[] => {
  const players = new Map<Card, Id[]>();
  for (const { card, member } of plan.units) {
    if (card === null || member === null) continue;
    const known = players.get(card);
    if (known === undefined) players.set(card, [member]);
    else if (!known.includes(member)) known.push(member);
  }
  return [...players].map(([card, members]) => ({ do: "drill", card, members }));
};

const actionsFor = (input: ScoreInput, plan: SongPlan, candidates: readonly Id[]): readonly RaiseAction[] => {
  const seated = new Set(input.lineUp.values());
  const free: readonly (Id | null)[] = [null, ...candidates.filter((member) => !seated.has(member))];
  const somebody = plan.parts.some((part) => part.holder !== null);
  return [
    ...(somebody ? [{ do: "run" } as const] : []),
    ...drillsFor(plan),
    ...plan.parts
      .filter((part) => part.holder === null)
      .flatMap(({ chair }) => free.map((member) => ({ do: "seat", chair, member }) as const)),
  ];
};

/** The input after one action at `now`. */
const taken = (
  base: ScoreInput,
  { plan, units }: SongScore,
  action: RaiseAction,
  now: number,
): ScoreInput => {
  if (action.do === "run") {
    return withPlanned(base, [
      plannedTake(base.file, plan, { kind: "run", scope: { of: "whole" }, at: now }),
    ]);
  }
  if (action.do === "drill") {
    const { card, members } = action;
    const scope = { of: "cards", cards: [card.id] } as const;
    const drill = plannedTake(base.file, plan, { kind: "drill", scope, at: now, chairs: card.chairs });
    const practised = withPlanned(base, [drill]);
    return { ...practised, file: withCardRaised(practised.file, card, members, now) };
  }
  const lineUp = new Map(base.lineUp).set(action.chair, action.member ?? NEWCOMER);
  if (action.member !== null) return { ...base, lineUp };
  const statuses = new Map(base.file.statuses);
  for (const { unit } of units) {
    if (unit.chair !== action.chair || unit.statusId === null) continue;
    const at = Math.max(now, unit.since);
    statuses.set(unit.statusId, new Map(statuses.get(unit.statusId)).set(NEWCOMER, firstMark(2, at)));
  }
  return { ...base, lineUp, file: { ...base.file, statuses } };
};

const keyOf = (action: RaiseAction): string =>
  action.do === "run"
    ? "0"
    : action.do === "drill"
      ? `1${action.card.id}`
      : `2${action.chair}/${action.member ?? ""}`;
