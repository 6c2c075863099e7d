/** Takes and marks that have not happened, for "what if" questions. They never reach a document. */
import type { SongFile } from "../board/board.ts";
import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import type { Level, Status } from "../board/status.ts";
import type { Scope, Seat, Take, TakeKind } from "../board/take.ts";
import type { SongPlan } from "./plan.ts";
import { cutOf, type ScoreInput } from "./score-input.ts";

/** Writer and id prefix of what is only planned; `~` sorts after every letter and digit. */
const PLANNED = "~planned";

/** A clean take by everybody this line-up has on these chairs, at `at` (ms). */
export const plannedTake = (
  file: SongFile,
  plan: SongPlan,
  what: {
    readonly kind: TakeKind;
    readonly scope: Scope;
    readonly at: number;
    readonly chairs?: readonly Id[];
  },
): Take => {
  const seats = plan.parts.flatMap(({ chair, holder }): Seat[] =>
    holder === null || (what.chairs && !what.chairs.includes(chair)) ? [] : [{ chair, member: holder }],
  );
  return {
    id: `${PLANNED}/${file.song.id}/${what.at}`,
    song: file.song.id,
    occasion: PLANNED,
    no: 0,
    kind: what.kind,
    at: what.at,
    seats,
    scope: what.scope,
    feel: "clean",
    tempoStart: null,
    tempoEnd: null,
    key: null,
    slips: [],
    writers: [PLANNED],
  };
};

/**
 * The input with takes added that are still to come: the log up to now stays as it is, takes logged with a later
 * date stay out, planned ones count up to `t`.
 */
export const withPlanned = (input: ScoreInput, planned: readonly Take[]): ScoreInput => {
  const cut = cutOf(input);
  const takes = [...input.file.takes.filter((take) => take.at <= cut), ...planned];
  return { ...input, file: { ...input.file, takes }, asOf: input.t };
};

/** The file with a card's players one level further on, as of `at`; those who are there re-confirm. */
export const withCardRaised = (file: SongFile, card: Card, members: readonly Id[], at: number): SongFile => {
  const marks = new Map(file.statuses.get(card.id));
  for (const member of members) marks.set(member, raised(marks.get(member), at));
  return { ...file, statuses: new Map(file.statuses).set(card.id, marks) };
};

const raised = (status: Status | undefined, at: number): Status => {
  const from = status?.level ?? 0;
  const fromAnchor = status?.anchor ?? 0;
  const level = Math.min(3, from + 1) as Level;
  const anchor = Math.max(at, fromAnchor);
  return { writer: PLANNED, level, from, anchor, fromAnchor, at: anchor };
};

/** A first mark, made at `at`. */
export const firstMark = (level: Level, at: number): Status => ({
  writer: PLANNED,
  level,
  from: 0,
  anchor: at,
  fromAnchor: 0,
  at,
});
