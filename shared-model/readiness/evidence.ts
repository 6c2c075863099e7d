/** From a song's log to the events of one unit. */
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Take } from "../board/take.ts";
import { type Attendance, readAttendance } from "./attendance.ts";
import {
  cardSlip,
  type LoggedTake,
  type Mentions,
  partSlip,
  readLog,
  readMentions,
  type SongLog,
  slipEvent,
  type UnitEvent,
} from "./log.ts";
import { planSong, type SongPlan, type Unit } from "./plan.ts";
import { coversCard, coversPart } from "./scope.ts";
import { cutOf, type ScoreInput } from "./score-input.ts";
import type { Events } from "./weigh.ts";

/** A take as the player of one chair saw it. */
export interface SeatedTake {
  readonly logged: LoggedTake;
  /** What it says about a detail of that chair alone that it does not name; null = nothing. */
  readonly plain: UnitEvent | null;
  /** True when it went through some sections only: then it depends on the detail. */
  readonly bySections: boolean;
  /** Worst slip on the chair without a card; 0 = none. */
  readonly onPart: number;
}

/** The log seen from one chair of this line-up: the takes in which its holder sat there. */
export const seatedTakes = (
  log: SongLog,
  attendance: Attendance,
  column: number,
  chair: Id,
): readonly SeatedTake[] => {
  const seated: SeatedTake[] = [];
  for (const logged of log) {
    if (!attendance.held(logged.place, column)) continue;
    const onPart = partSlip(logged, chair);
    const { of } = logged.take.scope;
    const plain = of === "whole" && onPart === 0 ? logged.clean : null;
    seated.push({ logged, plain, bySections: of === "sections", onPart });
  }
  return seated;
};

/** What the events of a song's units are read from. */
export interface EventSource {
  readonly log: SongLog;
  readonly attendance: Attendance;
  readonly mentions: Mentions;
  readonly file: Pick<SongFile, "sections">;
}

/** Lays a song out and reads its log up to the cut. */
export const sourceOf = (input: ScoreInput): { readonly plan: SongPlan; readonly source: EventSource } => {
  const { file, settings } = input;
  const plan = planSong(input);
  const log = readLog(file.song.id, file.takes, cutOf(input), settings);
  const attendance = readAttendance(log, plan.parts);
  return { plan, source: { log, attendance, mentions: readMentions(file.song.id, log), file } };
};

/**
 * Events for a card or a part, from the takes its player sat in:
 * a slip on the unit beats everything; a slip on the chair without a card says nothing about the chair's cards,
 * neither clean nor slip, because nobody knows which of them it was; else a clean take that went through it.
 * A shared card without somebody on each of its chairs counts as solo work, whoever that somebody was:
 * the partner's own unit says what the partner knows.
 */
export const unitEvents = (
  unit: Unit,
  seated: readonly SeatedTake[],
  { attendance, mentions, file }: EventSource,
  into: UnitEvent[] = [],
): Events => {
  const named = mentions.get(unit.statusId ?? "") ?? [];
  const columns = unit.chairs.length > 1 ? unit.chairs.map(attendance.column) : null;
  let count = 0;
  let next = 0;
  for (let i = firstSince(seated, unit.since); i < seated.length; i++) {
    const one = seated[i];
    if (one === undefined) continue;
    const { logged } = one;
    const { place } = logged;
    while (next < named.length && (named[next]?.place ?? 0) < place) next++;
    let event = named[next] === logged || one.bySections ? eventOf(unit, one, file) : one.plain;
    if (event === null) continue;
    if (columns !== null && event.kind !== "solo") {
      for (const column of columns) {
        if (attendance.taken(place, column)) continue;
        event = asSolo(event, logged);
        break;
      }
    }
    into[count++] = event;
  }
  return { list: into, count };
};

/** Index of the first take at or after a moment. */
const firstSince = (seated: readonly SeatedTake[], since: number): number => {
  let low = 0;
  let high = seated.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((seated[middle]?.logged.take.at ?? since) < since) low = middle + 1;
    else high = middle;
  }
  return low;
};

/** What a take that names the unit, or may have passed it, says about it. */
const eventOf = (
  unit: Unit,
  { logged, onPart }: SeatedTake,
  file: Pick<SongFile, "sections">,
): UnitEvent | null => {
  const { take } = logged;
  const severity = unit.card === null ? onPart : cardSlip(logged, unit.card.id, unit.chair);
  if (severity > 0) return slipEvent(take, take.kind, severity);
  return onPart === 0 && covers(unit, take, file) ? logged.clean : null;
};

const asSolo = (event: UnitEvent, logged: LoggedTake): UnitEvent =>
  event.outcome === "slip" || logged.cleanAlone === null
    ? slipEvent(event.take, "solo", event.severity)
    : logged.cleanAlone;

const covers = (unit: Unit, { scope }: Take, file: Pick<SongFile, "sections">): boolean => {
  if (scope.of === "whole") return true;
  return unit.card === null
    ? unit.statusId !== null && coversPart(scope, file, unit.statusId)
    : coversCard(scope, file, unit.card);
};
