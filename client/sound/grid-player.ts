import { continued, type GridRun, gridRun, playsTheSame } from "#shared/music/grid-continue.ts";
import type { GridPlan, GridStep } from "#shared/music/grid-playback.ts";
import { gridSounds } from "./grid-voices.ts";
import { createPlayer, type Player } from "./player.ts";

export interface GridPlayer extends Omit<Player<GridStep>, "start" | "replace" | "timeAt"> {
  /** From the beginning, from within a press, as browsers ask. */
  readonly start: (plan: GridPlan) => void;
  /** Goes on with the same grids at the next step; other grids begin from their beginning. Does nothing while stopped. */
  readonly change: (plan: GridPlan) => void;
}

/** Bars over which a grid rises from quiet to its volume. */
const SWELL_BARS = 2;

export const createGridPlayer = (firstVolume: number): GridPlayer => {
  const { start: begin, replace, timeAt: _, ...player } = createPlayer<GridStep>(gridSounds, firstVolume);
  let run: GridRun | null = null;
  const start = (plan: GridPlan): void => {
    run = gridRun(plan);
    begin(run.track, SWELL_BARS * run.track.bar);
  };
  return {
    ...player,
    start,
    change: (plan) => {
      const before = run;
      if (before === null || player.state() !== "playing") return;
      if (!playsTheSame(before.plan, plan)) {
        start(plan);
        return;
      }
      replace((soonest) => {
        const next = continued(before, plan, soonest);
        run = next.run;
        return { score: next.run.track, time: next.time };
      });
    },
  };
};
