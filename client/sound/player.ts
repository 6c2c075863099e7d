import { type Planned, type Score, type Stage, scheduleSteps, swellingGate, type Timed } from "./schedule.ts";

/** How far ahead (s) sounds are handed over: a page that is busy or out of sight for a second is not heard. */
const AHEAD = 1.5;
const LOOK_MS = 200;
/** Time (s) the first sound takes to come, and the closest a change may follow. */
const LEAD = 0.12;
const SOONEST = 0.06;
/** How long (s) the sound takes to fade when it is stopped; anything shorter pops. */
const FADE = 0.02;
/** How long (s) the last sound of a score may ring. */
const RING = 1;

/** interrupted = the device took the sound away; mute = this browser lets no page make one. */
export type PlayerState = "stopped" | "playing" | "interrupted" | "mute";

/** Plays one score at a time. Holds one sound output, opened at the first start. */
export interface Player<S extends Timed> {
  readonly state: () => PlayerState;
  readonly subscribe: (listener: () => void) => () => void;
  /** Starts from within a press, as browsers ask. `swell`: seconds it takes to its full volume. */
  readonly start: (score: Score<S>, swell: number) => void;
  /**
   * Goes on with another score. `next` is told the soonest time (s) of the score that is heard, and says at which one the
   * other begins. Does nothing while stopped.
   */
  readonly replace: (next: (soonest: number) => { readonly score: Score<S>; readonly time: number }) => void;
  readonly stop: () => void;
  /** 0 to 1; heard at once. */
  readonly setVolume: (volume: number) => void;
  /** The step that is heard now; null while stopped and before the first. */
  readonly heard: () => S | null;
  /** A moment of `performance.now()` on the time of the score that is heard (s). Null while stopped. */
  readonly timeAt: (at: number) => number | null;
  /** Gives the sound card back. */
  readonly close: () => void;
}

/** How a step sounds: its sources, started for that moment of the context, connected to `into`. */
export type Sounding<S> = (
  context: BaseAudioContext,
) => (step: S, at: number, into: AudioNode) => readonly AudioScheduledSourceNode[];

interface Running<S extends Timed> {
  /** Swells at the start. */
  readonly gate: GainNode;
  /** Shut at the end. Apart from the gate, as not every browser says how far a swell has come. */
  readonly door: GainNode;
  score: Score<S>;
  origin: number;
  /** Next step to hand over. */
  index: number;
  planned: Planned<S>[];
}

interface Output<S> {
  readonly context: AudioContext;
  readonly into: GainNode;
  readonly sound: Stage<S>["sound"];
}

const openOutput = <S>(volume: number, sounding: Sounding<S>): Output<S> | null => {
  if (typeof AudioContext === "undefined") return null;
  const context = new AudioContext({ latencyHint: "interactive" });
  const into = context.createGain();
  into.gain.value = volume ** 2;
  into.connect(context.destination);
  return { context, into, sound: sounding(context) };
};

/** What the context's time was at a moment of `performance.now()`, for what comes out of the loudspeaker. */
const heardAt = (context: AudioContext, at: number): number => {
  const { contextTime = 0, performanceTime = 0 } = context.getOutputTimestamp?.() ?? {};
  const known = contextTime > 0 && performanceTime > 0 && contextTime <= context.currentTime;
  if (known) return contextTime + (at - performanceTime) / 1000;
  const latency = context.outputLatency || context.baseLatency || 0;
  return context.currentTime - latency + (at - performance.now()) / 1000;
};

const silence = ({ sources }: Planned<unknown>): void => {
  for (const source of sources) {
    source.stop();
    source.disconnect();
  }
};

export const createPlayer = <S extends Timed>(sounding: Sounding<S>, firstVolume: number): Player<S> => {
  const listeners = new Set<() => void>();
  let output: Output<S> | null = null;
  let running: Running<S> | null = null;
  let state: PlayerState = "stopped";
  let volume = firstVolume;
  let timer = 0;

  const tell = (next: PlayerState): void => {
    if (state === next) return;
    state = next;
    for (const listener of listeners) listener();
  };

  const handOver = (): void => {
    if (running === null || output === null) return;
    const { context } = output;
    const { score, index, origin, gate } = running;
    const past = context.currentTime - 2;
    const fresh = scheduleSteps({ context, sound: output.sound, into: gate }, score, {
      index,
      origin,
      until: context.currentTime + AHEAD,
    });
    const last = running.planned.at(-1)?.at ?? origin;
    if (score.at(index) === null && context.currentTime > last + RING) {
      halt("stopped");
      return;
    }
    running.index += fresh.length;
    running.planned = [
      ...running.planned.filter(({ at }, i, all) => at > past || i === all.length - 1),
      ...fresh,
    ];
  };

  const halt = (next: PlayerState): void => {
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

  const listenFor = ({ context }: Output<S>): void => {
    let ran = context.state === "running";
    context.addEventListener("statechange", () => {
      if (context.state === "running") ran = true;
      else if (ran && running !== null) halt("interrupted");
    });
  };

  return {
    state: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
    start: (score, swell) => {
      if (running !== null) halt("stopped");
      if (output === null) {
        output = openOutput(volume, sounding);
        if (output !== null) listenFor(output);
      }
      if (output === null) {
        tell("mute");
        return;
      }
      const { context, into } = output;
      void context.resume().catch(() => halt("interrupted"));
      const origin = context.currentTime + LEAD;
      const gate = swellingGate(context, origin, swell);
      const door = context.createGain();
      gate.connect(door).connect(into);
      running = { gate, door, score, origin, index: 0, planned: [] };
      handOver();
      timer = window.setInterval(handOver, LOOK_MS);
      tell("playing");
    },
    replace: (next) => {
      if (running === null || output === null) return;
      const { score, time } = next(output.context.currentTime + SOONEST - running.origin);
      const begins = running.origin + time;
      // Half a millisecond: what is handed over for that very moment is not kept beside the new one.
      const kept = running.planned.filter(({ at }) => at < begins - 0.0005);
      for (const one of running.planned.slice(kept.length)) silence(one);
      running.planned = kept;
      running.score = score;
      running.origin = begins;
      running.index = 0;
      handOver();
    },
    stop: () => halt("stopped"),
    setVolume: (next) => {
      volume = next;
      output?.into.gain.setTargetAtTime(next ** 2, output.context.currentTime, 0.02);
    },
    heard: () => {
      if (running === null || output === null) return null;
      const now = heardAt(output.context, performance.now());
      return running.planned.findLast(({ at }) => at <= now)?.step ?? null;
    },
    timeAt: (at) =>
      running === null || output === null ? null : heardAt(output.context, at) - running.origin,
    close: () => {
      halt("stopped");
      void output?.context.close().catch(() => undefined);
      output = null;
    },
  };
};
