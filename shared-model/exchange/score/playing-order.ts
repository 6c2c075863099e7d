/**
 * The order in which written measures are played: repeats with their endings, then da capo and dal segno, to fine or coda.
 * After a jump repeats are not taken again, as is common practice.
 */
import type { Measure } from "./measure.ts";
import { SCORE_BARS_MAX, tooMany } from "./score-facts.ts";

type Written = Pick<Measure, "repeatFrom" | "repeatTimes" | "endings" | "jumps">;

/** How often one repeat is played at most. */
export const TIMES_MAX = 32;

/** The last time round that any ending after a repeat's beginning is for. */
const roundsOf = (measures: readonly Written[], from: number, at: number): number => {
  let last = Math.max(2, measures[at]?.repeatTimes ?? 2);
  for (let i = from; i < measures.length; i += 1) {
    if (i > at && (measures[i]?.endings.length ?? 0) === 0) break;
    last = Math.max(last, ...(measures[i]?.endings ?? []));
  }
  return Math.min(last, TIMES_MAX);
};

const find = (measures: readonly Written[], jump: string): number =>
  measures.findIndex(({ jumps }) => jumps.has(jump));

/** Indexes of the measures in playing order. Throws `Unreadable` where that never ends or is too long. */
export const playingOrder = (measures: readonly Written[]): readonly number[] => {
  const order: number[] = [];
  let from = 0;
  let round = 1;
  /** Where the repeat that is being played ends, once it is known. */
  let until = -1;
  let jumped = false;
  for (let at = 0; at < measures.length; ) {
    const measure = measures[at] as Written;
    if (measure.repeatFrom && at !== from && at > until) {
      from = at;
      round = 1;
    }
    // Behind the last ending a new stretch begins; so does what comes after a repeat without one.
    if (measure.endings.length === 0 && at > until && until >= 0) {
      if (!measure.repeatFrom) from = at;
      round = 1;
      until = -1;
    }
    const rounds = jumped ? Number.POSITIVE_INFINITY : round;
    const plays =
      measure.endings.length === 0 ||
      (jumped ? isLastEnding(measures, at) : measure.endings.includes(rounds));
    if (plays) {
      if (order.length === SCORE_BARS_MAX) throw tooMany("bars once its repeats are played", SCORE_BARS_MAX);
      order.push(at);
      if (jumped && measure.jumps.has("fine")) break;
      if (jumped && measure.jumps.has("tocoda")) {
        const coda = find(measures, "coda");
        if (coda > at) {
          at = coda;
          continue;
        }
      }
      if (!jumped && (measure.jumps.has("dacapo") || measure.jumps.has("dalsegno"))) {
        // A jump inside a repeat waits for its last time round.
        const back = measure.jumps.has("dacapo") ? 0 : find(measures, "segno");
        if (back >= 0 && !(measure.repeatTimes > 0 && round < roundsOf(measures, from, at))) {
          jumped = true;
          at = back;
          continue;
        }
      }
      if (!jumped && measure.repeatTimes > 0) {
        until = Math.max(until, at);
        if (round < roundsOf(measures, from, at)) {
          round += 1;
          at = from;
          continue;
        }
      }
    }
    at += 1;
  }
  return order;
};

/** After a jump only the last of several endings is played. */
const isLastEnding = (measures: readonly Written[], at: number): boolean => {
  const own = Math.max(...(measures[at]?.endings ?? [0]));
  for (let i = at + 1; i < measures.length && (measures[i]?.endings.length ?? 0) > 0; i += 1)
    if (Math.max(...(measures[i]?.endings ?? [0])) > own) return false;
  return true;
};
