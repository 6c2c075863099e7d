import {
  type Click,
  type ClickPlace,
  type ClickPlan,
  type ClickTrack,
  clickTrack,
} from "#shared/music/click.ts";
import { clickVoices } from "./click-voices.ts";
import { type ClickStage, type PlannedClick, scheduleClicks, swellingGate } from "./schedule-clicks.ts";

/** How far ahead (s) clicks are handed over: a page that is busy or out of sight for a second is not heard. */
const AHEAD = 1.5;
const LOOK_MS = 200;
/** Time (s) the first click takes to come, and the closest a change may follow. */
const LEAD = 0.12;
const SOONEST = 0.06;
/** How long (s) the sound takes to fade when it is stopped; anything shorter pops. */
const FADE = 0.02;

/** interrupted = the device took the sound away; mute = this browser lets no page make one. */
export type ClickState = "stopped" | "playing" | "interrupted" | "mute";

export interface ClickPlayer {
  readonly state: () => ClickState;
  readonly subscribe: (listener: () => void) => () => void;
  /** Starts from a place, from within a press, as browsers ask. */
  readonly start: (plan: ClickPlan, from: ClickPlace) => void;
  /** Goes on with another plan of the same metre at the next beat. Does nothing while stopped. */
  readonly change: (plan: ClickPlan) => void;
  readonly stop: () => void;
  /** 0 to 1; heard at once. */
  readonly setVolume: (volume: number) => void;
  /** The step that is heard now; null while stopped and before the first. */
  readonly heard: () => Click | null;
  /** The track that is heard, and a moment of `performance.now()` on its time (s). Null while stopped. */
  readonly moment: (at: number) => { readonly track: ClickTrack; readonly time: number } | null;
  /** Gives the sound card back. */
  readonly close: () => void;
}

interface Running {
  /** Swells at the start. */
  readonly gate: GainNode;
  /** Shut at the end. Apart from the gate, as not every browser says how far a swell has come. */
  readonly door: GainNode;
  track: ClickTrack;
  origin: number;
  /** Next step to hand over. */
  index: number;
  planned: PlannedClick[];
}

interface Output extends ClickStage {
  readonly context: AudioContext;
  readonly into: GainNode;
}

const openOutput = (volume: number): Output | null => {
  if (typeof AudioContext === "undefined") return null;
  const context = new AudioContext({ latencyHint: "interactive" });
  const into = context.createGain();
  into.gain.value = volume ** 2;
  into.connect(context.destination);
  return { context, into, voices: clickVoices(context) };
};

/** What the context's time was at a moment of `performance.now()`, for what comes out of the loudspeaker. */
const heardAt = (context: AudioContext, at: number): number => {
  const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp?.() ?? {};
  const known = contextTime > 0 && performanceTime > 0 && contextTime <= context.currentTime;
  if (known) return contextTime + (at - performanceTime) / 1000;
  const latency = context.outputLatency || context.baseLatency || 0;
  return context.currentTime - latency + (at - performance.now()) / 1000;
};

const silence = ({ source }: PlannedClick): void => {
  source?.stop();
  source?.disconnect();
};

/** A click that can be started, changed while it runs, and stopped. Holds one sound output, opened at the first start. */
export const createClickPlayer = (firstVolume: number): ClickPlayer => {
  const listeners = new Set<() => void>();
  let output: Output | null = null;
  let running: Running | null = null;
  let state: ClickState = "stopped";
  let volume = firstVolume;
  let timer = 0;

  const tell = (next: ClickState): void => {
    if (state === next) return;
    state = next;
    for (const listener of listeners) listener();
  };

  const handOver = (): void => {
    if (running === null || output === null) return;
    const { context } = output;
    const { track, index, origin, gate } = running;
    const past = context.currentTime - 2;
    const fresh = scheduleClicks({ ...output, into: gate }, track, {
      index,
      origin,
      until: context.currentTime + AHEAD,
    });
    running.index += fresh.length;
    running.planned = [...running.planned.filter(({ at }) => at > past), ...fresh];
  };

  const halt = (next: ClickState): void => {
    window.clearInterval(timer);
    if (running !== null && output !== null) {
      const { context } = output;
      const { door, planned } = running;
      const now = context.currentTime;
      door.gain.setValueAtTime(1, now);
      door.gain.linearRampToValueAtTime(0, now + FADE);
      for (const one of planned) if (one.at > now) silence(one);
      window.setTimeout(() => door.disconnect(), FADE * 1000 + 200);
    }
    running = null;
    tell(next);
  };

  const listenFor = ({ context }: Output): void => {
    let ran = context.state === "running";
    context.addEventListener("statechange", () => {
      if (context.state === "running") ran = true;
      else if (ran && running !== null) halt("interrupted");
    });
  };

  const start = (plan: ClickPlan, from: ClickPlace): void => {
    if (running !== null) halt("stopped");
    if (output === null) {
      output = openOutput(volume);
      if (output !== null) listenFor(output);
    }
    if (output === null) {
      tell("mute");
      return;
    }
    const { context, into } = output;
    void context.resume().catch(() => halt("interrupted"));
    const track = clickTrack(plan, from);
    const origin = context.currentTime + LEAD;
    const gate = swellingGate(context, track, origin);
    const door = context.createGain();
    gate.connect(door).connect(into);
    running = { gate, door, track, origin, index: 0, planned: [] };
    handOver();
    timer = window.setInterval(handOver, LOOK_MS);
    tell("playing");
  };

  const change = (plan: ClickPlan): void => {
    if (running === null || output === null) return;
    const { track, origin } = running;
    const { perBeat } = track.plan;
    const soonest = track.stepsAt(output.context.currentTime + SOONEST - origin);
    const { time, bar, beat } = track.at(Math.max(0, Math.ceil(soonest / perBeat) * perBeat));
    const next = origin + time;
    // Half a millisecond: what is handed over for that very beat is not kept beside the new one.
    const kept = running.planned.filter(({ at }) => at < next - 0.0005);
    for (const one of running.planned.slice(kept.length)) silence(one);
    running.planned = kept;
    running.track = clickTrack(plan, { bar, beat });
    running.origin = next;
    running.index = 0;
    handOver();
  };

  return {
    state: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    start,
    change,
    stop: () => halt("stopped"),
    setVolume: (next) => {
      volume = next;
      output?.into.gain.setTargetAtTime(next ** 2, output.context.currentTime, 0.02);
    },
    heard: () => {
      if (running === null || output === null) return null;
      const now = heardAt(output.context, performance.now());
      return running.planned.findLast(({ at }) => at <= now)?.click ?? null;
    },
    moment: (at) => {
      if (running === null || output === null) return null;
      return { track: running.track, time: heardAt(output.context, at) - running.origin };
    },
    close: () => {
      halt("stopped");
      void output?.context.close().catch(() => undefined);
      output = null;
    },
  };
};
