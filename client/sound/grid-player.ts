import { type GridPlan, type GridStep, gridTrack } from "#shared/music/grid-playback.ts";
import { gridSounds } from "./grid-voices.ts";
import { createPlayer, type Player } from "./player.ts";

export interface GridPlayer extends Omit<Player<GridStep>, "start" | "replace" | "timeAt"> {
  /** From the beginning, from within a press, as browsers ask. */
  readonly start: (plan: GridPlan) => void;
}

/** Bars over which a grid rises from quiet to its volume. */
const SWELL_BARS = 2;

export const createGridPlayer = (firstVolume: number): GridPlayer => {
  const { start, ...player } = createPlayer<GridStep>(gridSounds, firstVolume);
  return {
    ...player,
    start: (plan) => {
      const track = gridTrack(plan);
      start(track, SWELL_BARS * track.bar);
    },
  };
};
