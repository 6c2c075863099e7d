/** A grid that goes on at another tempo, another swing, with or without its click, from the step it had come to. */
import { type GridPlan, type GridTrack, gridTrack } from "./grid-playback.ts";
import { beatsPerBar } from "./metre.ts";

const countInOf = ({ click, metre }: GridPlan): number => (click ? beatsPerBar(metre) : 0);

const cycleOf = ({ rounds }: GridPlan): number => rounds.reduce((sum, { grid }) => sum + grid.steps, 0);

/** True when both plans play the same grids one after the other, so that a place in one is a place in the other. */
export const playsTheSame = (a: GridPlan, b: GridPlan): boolean =>
  a.rounds.length === b.rounds.length && a.rounds.every(({ grid }, i) => grid === b.rounds[i]?.grid);

/** A plan from one of its steps on: that step is the first, at 0 s. */
export interface GridRun {
  readonly plan: GridPlan;
  /** Steps and beats of the count-in before its first. */
  readonly from: number;
  readonly track: GridTrack;
}

export const gridRun = (plan: GridPlan, from = 0): GridRun => {
  const { at, bar } = gridTrack(plan);
  const begins = at(from)?.time ?? 0;
  return {
    plan,
    from,
    track: {
      bar,
      at: (index) => {
        const step = at(from + index);
        return step === null ? null : { ...step, time: step.time - begins };
      },
    },
  };
};

/** The first step of a run, counted from its own first, that begins at `seconds` or later; times never go back. */
const stepFrom = ({ at }: GridTrack, seconds: number): number => {
  const isBefore = (index: number): boolean => (at(index)?.time ?? Number.POSITIVE_INFINITY) < seconds;
  let high = 1;
  while (isBefore(high)) high *= 2;
  let low = 0;
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isBefore(middle)) low = middle + 1;
    else high = middle;
  }
  return low;
};

/**
 * The run that takes over from another at its next step, `soonest` seconds into it or later, and when (s of the old run) it
 * does. Of a count-in that is not wanted any more nothing is left; a run that was over stays over, unless it goes round now.
 */
export const continued = (
  before: GridRun,
  plan: GridPlan,
  soonest: number,
): { readonly run: GridRun; readonly time: number } => {
  // As if it went round: where a loop begins only now, the last round is followed by a first step.
  const endless = gridRun({ ...before.plan, loop: true }, before.from);
  const next = stepFrom(endless.track, soonest);
  const time = endless.track.at(next)?.time ?? soonest;
  const [countIn, cycle] = [countInOf(before.plan), cycleOf(before.plan)];
  const played = before.from + next - countIn;
  const isOver = played >= cycle && !before.plan.loop && !plan.loop;
  const from =
    played < 0
      ? Math.min(before.from + next, countInOf(plan))
      : countInOf(plan) + (isOver ? cycle : played % cycle);
  return { run: gridRun(plan, from), time };
};
