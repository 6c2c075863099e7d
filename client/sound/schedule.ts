/** What can be played: steps at moments (s) from the start. */
export interface Timed {
  readonly time: number;
}

export interface Score<S extends Timed> {
  /** The step after so many; null when it is over. */
  readonly at: (index: number) => S | null;
}

/** A step handed to the sound card. */
export interface Planned<S> {
  /** Moment on the context's own time, s. */
  readonly at: number;
  readonly step: S;
  /** None for a silent step. */
  readonly sources: readonly AudioScheduledSourceNode[];
}

export interface Stage<S> {
  readonly context: BaseAudioContext;
  /** Starts what sounds at a step, and answers its sources. */
  readonly sound: (step: S, at: number, into: AudioNode) => readonly AudioScheduledSourceNode[];
  readonly into: AudioNode;
}

/**
 * Hands over every step from `index` on that lies before `until`, and returns them. `origin` is the moment of the score's
 * start on the context's time. What is late already is left out: better a gap than a heap.
 */
export const scheduleSteps = <S extends Timed>(
  { context, sound, into }: Stage<S>,
  score: Score<S>,
  { index, origin, until }: { readonly index: number; readonly origin: number; readonly until: number },
): readonly Planned<S>[] => {
  const planned: Planned<S>[] = [];
  for (let next = index; ; next++) {
    const step = score.at(next);
    if (step === null) return planned;
    const at = origin + step.time;
    if (at >= until) return planned;
    planned.push({ at, step, sources: at < context.currentTime ? [] : sound(step, at, into) });
  }
};

const SWELL_FROM = 0.2;

/** A gate that sound comes in by: quiet at first, full after so many seconds. */
export const swellingGate = (context: BaseAudioContext, origin: number, seconds: number): GainNode => {
  const gate = context.createGain();
  gate.gain.value = SWELL_FROM;
  gate.gain.setValueAtTime(SWELL_FROM, origin);
  gate.gain.linearRampToValueAtTime(1, origin + seconds);
  return gate;
};
