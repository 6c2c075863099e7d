import { useEffect, useRef, useState, useSyncExternalStore } from "react";
import { createGridPlayer } from "#client/sound/grid-player.ts";
import type { PlayerState } from "#client/sound/player.ts";
import type { Grid } from "#shared/board/grid.ts";
import type { GridPlan, GridSource } from "#shared/music/grid-playback.ts";
import { startVolume } from "#shared/selectors/practice-click.ts";
import { recall, remember } from "../device-memory.ts";
import { tellSounding } from "./sounding-step.ts";

const VOLUME = "click-volume";

export interface OpenGridPlayer {
  readonly state: PlayerState;
  readonly volume: number;
  readonly setVolume: (volume: number) => void;
  readonly start: (plan: GridPlan) => void;
  /** Goes on with the same grids at the next step. Does nothing while stopped. */
  readonly change: (plan: GridPlan) => void;
  readonly stop: () => void;
  /** What is heard now: counting in, ours, the recording's; null while nothing is. */
  readonly heard: GridSource | "count-in" | null;
}

/** A player of grids that falls silent with its part of the screen. */
export const useGridPlayer = (): OpenGridPlayer => {
  const [volume, setVolume] = useState(() => startVolume(recall(VOLUME)));
  const held = useRef<ReturnType<typeof createGridPlayer> | null>(null);
  held.current ??= createGridPlayer(volume);
  const player = held.current;
  const state = useSyncExternalStore(player.subscribe, player.state);
  const [heard, setHeard] = useState<OpenGridPlayer["heard"]>(null);
  const rounds = useRef<GridPlan["rounds"]>([]);
  useEffect(() => () => player.close(), [player]);
  useEffect(() => {
    if (state !== "playing") return;
    let frame = 0;
    let marked: Grid | null = null;
    const look = (): void => {
      const step = player.heard();
      const grid = rounds.current.find(({ source }) => source === step?.source)?.grid ?? null;
      tellSounding(marked, grid, step?.step ?? 0);
      marked = grid;
      setHeard(step === null ? null : (step.source ?? "count-in"));
      frame = requestAnimationFrame(look);
    };
    look();
    return () => {
      cancelAnimationFrame(frame);
      tellSounding(marked, null, 0);
      setHeard(null);
    };
  }, [player, state]);
  return {
    state,
    volume,
    setVolume: (next) => {
      setVolume(next);
      player.setVolume(next);
      remember(VOLUME, String(next));
    },
    start: (plan) => {
      rounds.current = plan.rounds;
      player.start(plan);
    },
    change: (plan) => {
      rounds.current = plan.rounds;
      player.change(plan);
    },
    stop: player.stop,
    heard,
  };
};
