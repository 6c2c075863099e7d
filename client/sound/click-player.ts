import {
  type Click,
  type ClickPlace,
  type ClickPlan,
  type ClickTrack,
  clickTrack,
} from "#shared/music/click.ts";
import { clickSounds } from "./click-voices.ts";
import { createPlayer, type Player, type PlayerState } from "./player.ts";

export type ClickState = PlayerState;

export interface ClickPlayer
  extends Pick<Player<Click>, "state" | "subscribe" | "stop" | "setVolume" | "heard" | "close"> {
  /** Starts from a place, from within a press, as browsers ask. */
  readonly start: (plan: ClickPlan, from: ClickPlace) => void;
  /** Goes on with another plan of the same metre at the next beat. Does nothing while stopped. */
  readonly change: (plan: ClickPlan) => void;
  /** The track that is heard, and a moment of `performance.now()` on its time (s). Null while stopped. */
  readonly moment: (at: number) => { readonly track: ClickTrack; readonly time: number } | null;
}

/** Bars over which a click rises from quiet to its volume. */
const SWELL_BARS = 2;

/** Seconds from a track's start until so many bars have begun. */
export const swellOf = (track: ClickTrack): number => {
  const first = track.at(0);
  let index = 0;
  while (track.at(index).bar < first.bar + SWELL_BARS) index += track.plan.perBeat;
  return track.at(index).time;
};

/** A click that can be started, changed while it runs, and stopped. */
export const createClickPlayer = (firstVolume: number): ClickPlayer => {
  const player = createPlayer<Click>(clickSounds, firstVolume);
  let heard: ClickTrack | null = null;
  return {
    ...player,
    start: (plan, from) => {
      heard = clickTrack(plan, from);
      player.start(heard, swellOf(heard));
    },
    change: (plan) =>
      player.replace((soonest) => {
        const track = heard ?? clickTrack(plan, { bar: 0, beat: 0 });
        const { perBeat } = track.plan;
        const index = Math.max(0, Math.ceil(track.stepsAt(soonest) / perBeat) * perBeat);
        const { time, bar, beat } = track.at(index);
        heard = clickTrack(plan, { bar, beat });
        return { score: heard, time };
      }),
    moment: (at) => {
      const time = player.timeAt(at);
      return time === null || heard === null ? null : { track: heard, time };
    },
  };
};
