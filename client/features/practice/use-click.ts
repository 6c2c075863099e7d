import { useCallback, useEffect, useRef, useState, useSyncExternalStore } from "react";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { type ClickPlayer, type ClickState, createClickPlayer } from "#client/sound/click-player.ts";
import type { Click } from "#shared/music/click.ts";
import {
  type ClickChoices,
  type ClickGround,
  clickPlanOf,
  firstChoices,
  heldTempo,
  startVolume,
} from "#shared/selectors/practice-click.ts";

const VOLUME = "click-volume";
export interface OpenClick {
  readonly player: ClickPlayer;
  readonly state: ClickState;
  readonly choices: ClickChoices;
  readonly volume: number;
  readonly choose: (change: Partial<ClickChoices>) => void;
  /** Faster or slower by so many beats per minute, from what is heard now. */
  readonly shift: (by: number) => void;
  readonly toggle: () => void;
  /** From the count-in again. */
  readonly again: () => void;
  readonly setVolume: (volume: number) => void;
}

/** A click for one detail and what its player chose of it. It falls silent with the screen. */
export const useClick = (ground: ClickGround, tempo: number): OpenClick => {
  const [volume, setVolume] = useState(() => startVolume(recall(VOLUME)));
  const [player] = useState(() => createClickPlayer(volume));
  const state = useSyncExternalStore(player.subscribe, player.state);
  const [choices, setChoices] = useState<ClickChoices>(() => ({ ...firstChoices(ground), bpm: tempo }));
  // Beyond the state, because keys and pedals come faster than the next drawing.
  const latest = useRef(choices);
  useEffect(() => () => player.close(), [player]);

  const choose = useCallback(
    (change: Partial<ClickChoices>) => {
      const bpm = player.heard()?.bpm ?? latest.current.bpm;
      latest.current = { ...latest.current, bpm, ...change };
      setChoices(latest.current);
      player.change(clickPlanOf(ground, latest.current));
    },
    [player, ground],
  );
  const again = useCallback(
    () => player.start(clickPlanOf(ground, latest.current), { bar: -latest.current.countIn, beat: 0 }),
    [player, ground],
  );
  return {
    player,
    state,
    choices,
    volume,
    choose,
    again,
    shift: useCallback((by) => choose({ bpm: heldTempo(Math.round(latest.current.bpm) + by) }), [choose]),
    toggle: useCallback(() => {
      if (player.state() !== "playing") return again();
      const bpm = player.heard()?.bpm;
      player.stop();
      if (bpm === undefined || bpm === latest.current.bpm) return;
      latest.current = { ...latest.current, bpm };
      setChoices(latest.current);
    }, [player, again]),
    setVolume: useCallback(
      (next) => {
        setVolume(next);
        player.setVolume(next);
        remember(VOLUME, String(next));
      },
      [player],
    ),
  };
};

/** The click that is heard, drawn anew when its bar, its tempo or its silence changes; null while nothing is. */
export const useHeard = (
  { player, state }: OpenClick,
  onStep: (click: Click | null) => void,
): Click | null => {
  const [shown, setShown] = useState<Click | null>(null);
  const step = useRef(onStep);
  useEffect(() => {
    step.current = onStep;
  });
  useEffect(() => {
    if (state !== "playing") return;
    let frame = 0;
    let last: Click | null = null;
    const look = (): void => {
      const click = player.heard();
      if (click !== last) {
        last = click;
        step.current(click);
        setShown((now) =>
          now?.bar === click?.bar && now?.bpm === click?.bpm && now?.loop === click?.loop ? now : click,
        );
      }
      frame = requestAnimationFrame(look);
    };
    look();
    return () => {
      cancelAnimationFrame(frame);
      step.current(null);
      setShown(null);
    };
  }, [player, state]);
  return shown;
};
