/** How a gig's songs stand on each day up to the night: if nothing more happens, and if what is planned is carried out. */
import type { Id } from "../board/ids.ts";
import type { PlannedBlock, Rehearsal } from "../board/rehearsal.ts";
import type { Take } from "../board/take.ts";
import { addDays, type Day, daysBetween, endOfDay } from "../lib/calendar.ts";
import { onTheNight } from "../readiness/forecast.ts";
import { planSong } from "../readiness/plan.ts";
import { plannedTake } from "../readiness/planned.ts";
import type { ScoreInput } from "../readiness/score-input.ts";
import type { SongScore } from "../readiness/song-score.ts";

export interface CurvePoint {
  readonly day: Day;
  /** Mean score of the songs, 0 to 1. */
  readonly untouched: number;
  readonly planned: number;
}

/** Most days that are computed; between them the line is straight. */
const POINTS_MOST = 15;
/** Rehearsals are over this long (ms) before the end of their day. */
const BEFORE_MIDNIGHT = 2 * 3_600_000;

/** The days of the curve, the first and the last included. */
export const curveDays = (today: Day, gigDay: Day): readonly Day[] => {
  const days = Math.max(0, daysBetween(today, gigDay));
  const steps = Math.min(days, POINTS_MOST - 1);
  if (steps === 0) return [gigDay];
  return Array.from({ length: steps + 1 }, (_, i) => addDays(today, Math.round((days * i) / steps)));
};

const takesOf = (input: ScoreInput, block: PlannedBlock, at: number): readonly Take[] => {
  const plan = planSong(input);
  const { file } = input;
  const takes: Take[] = [];
  if (block.cards.length > 0)
    takes.push(plannedTake(file, plan, { kind: "drill", scope: { of: "cards", cards: block.cards }, at }));
  if (block.section !== null)
    takes.push(
      plannedTake(file, plan, { kind: "drill", scope: { of: "sections", sections: [block.section] }, at }),
    );
  for (let run = 0; run < block.runs; run += 1)
    takes.push(plannedTake(file, plan, { kind: "run", scope: { of: "whole" }, at: at + run + 1 }));
  return takes;
};

export interface CurveSource {
  /** One for each song of the gig; `t` is replaced. */
  readonly inputs: readonly ScoreInput[];
  readonly today: Day;
  readonly gigDay: Day;
  readonly timeZone: string;
  readonly rehearsals: readonly Rehearsal[];
  readonly score?: (input: ScoreInput) => SongScore;
}

/** The takes that the plans of the evenings up to the gig would add, by song. */
export const plannedTakes = (source: CurveSource): ReadonlyMap<Id, readonly Take[]> => {
  const { inputs, today, gigDay, timeZone } = source;
  const coming = source.rehearsals.filter(({ day }) => day >= today && day <= gigDay);
  return new Map(
    inputs.map((input) => [
      input.file.song.id,
      coming.flatMap(({ day, plan }) =>
        plan
          .filter(({ song }) => song === input.file.song.id)
          .flatMap((block) => takesOf(input, block, endOfDay(day, timeZone) - BEFORE_MIDNIGHT)),
      ),
    ]),
  );
};

/** The curve point by point; empty for a gig without songs. */
export function* nightCurve(source: CurveSource): Generator<CurvePoint, void> {
  const { inputs, today, gigDay, timeZone, score } = source;
  if (inputs.length === 0) return;
  const takes = plannedTakes(source);
  for (const day of curveDays(today, gigDay)) {
    const t = endOfDay(day, timeZone);
    let [untouched, planned] = [0, 0];
    for (const input of inputs) {
      const done = (takes.get(input.file.song.id) ?? []).filter(({ at }) => at <= t);
      const forecast = onTheNight({ ...input, t }, done, score);
      untouched += forecast.untouched.score;
      planned += forecast.planned.score;
    }
    yield { day, untouched: untouched / inputs.length, planned: planned / inputs.length };
  }
}
