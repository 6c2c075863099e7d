import { useEffect, useRef, useState, useSyncExternalStore } from "react";
import { createGridPlayer } from "#client/sound/grid-player.ts";
import type { PlayerState } from "#client/sound/player.ts";
import type { GridPlan, GridSource } from "#shared/music/grid-playback.ts";
import { startVolume } from "#shared/selectors/practice-click.ts";
import { recall, remember } from "../device-memory.ts";

const VOLUME = "click-volume";

export interface OpenGridPlayer {
  readonly state: PlayerState;
  readonly volume: number;
  readonly setVolume: (volume: number) => void;
  readonly start: (plan: GridPlan) => void;
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
  useEffect(() => () => player.close(), [player]);
  useEffect(() => {
    if (state !== "playing") return;
    let frame = 0;
    const look = (): void => {
      const step = player.heard();
      setHeard(step === null ? null : (step.source ?? "count-in"));
      frame = requestAnimationFrame(look);
    };
    look();
    return () => {
      cancelAnimationFrame(frame);
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
    start: player.start,
    stop: player.stop,
    heard,
  };
};
