import type { Click, ClickTrack } from "#shared/music/click.ts";
import type { ClickVoices } from "./click-voices.ts";

/** A click handed to the sound card. */
export interface PlannedClick {
  /** Moment on the context's own time, s. */
  readonly at: number;
  readonly click: Click;
  /** Null for a silent step. */
  readonly source: AudioBufferSourceNode | null;
}

export interface ClickStage {
  readonly context: BaseAudioContext;
  readonly voices: ClickVoices;
  readonly into: AudioNode;
}

/**
 * Hands over every click from `index` on that lies before `until`, and returns them. `origin` is the moment of the
 * track's start on the context's time. What is late already is left out: better a gap than a heap.
 */
export const scheduleClicks = (
  { context, voices, into }: ClickStage,
  track: ClickTrack,
  { index, origin, until }: { readonly index: number; readonly origin: number; readonly until: number },
): readonly PlannedClick[] => {
  const planned: PlannedClick[] = [];
  for (let next = index; ; next++) {
    const click = track.at(next);
    const at = origin + click.time;
    if (at >= until) return planned;
    const buffer = at < context.currentTime ? undefined : voices.get(click.strength);
    let source: AudioBufferSourceNode | null = null;
    if (buffer !== undefined) {
      source = context.createBufferSource();
      source.buffer = buffer;
      source.connect(into);
      source.start(at);
    }
    planned.push({ at, click, source });
  }
};

/** Bars over which a click rises from quiet to its volume, and where it begins. */
const SWELL_BARS = 2;
const SWELL_FROM = 0.2;

/** A gate that a click comes in by: quiet at first, full after two bars. */
export const swellingGate = (context: BaseAudioContext, track: ClickTrack, origin: number): GainNode => {
  const gate = context.createGain();
  const first = track.at(0);
  let index = 0;
  while (track.at(index).bar < first.bar + SWELL_BARS) index += track.plan.perBeat;
  gate.gain.value = SWELL_FROM;
  gate.gain.setValueAtTime(SWELL_FROM, origin);
  gate.gain.linearRampToValueAtTime(1, origin + track.at(index).time);
  return gate;
};
