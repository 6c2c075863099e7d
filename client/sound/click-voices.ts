import type { Click, ClickStrength } from "#shared/music/click.ts";
import type { Sounding } from "./player.ts";

/** How a step sounds: pitch in Hz, height of its peak against full scale. */
const VOICES: { readonly [S in Exclude<ClickStrength, "silent">]: readonly [number, number] } = {
  first: [1760, 0.8],
  strong: [1320, 0.65],
  plain: [990, 0.5],
  soft: [880, 0.18],
};

/** Seconds: a click is over before the next one of sixteenths at 400 bpm. */
const LENGTH = 0.025;
const ATTACK = 0.001;
const DECAY = 0.005;
const RELEASE = 0.005;

/** A tone that swells and dies without an edge, which would crack. */
const toneOf = (context: BaseAudioContext, [pitch, peak]: readonly [number, number]): AudioBuffer => {
  const { sampleRate } = context;
  const buffer = context.createBuffer(1, Math.ceil(LENGTH * sampleRate), sampleRate);
  const samples = buffer.getChannelData(0);
  const round = (share: number): number => 0.5 - 0.5 * Math.cos(Math.PI * Math.min(1, Math.max(0, share)));
  for (let i = 0; i < samples.length; i++) {
    const time = i / sampleRate;
    const shape = round(time / ATTACK) * Math.exp(-time / DECAY) * round((LENGTH - time) / RELEASE);
    samples[i] = peak * shape * Math.sin(2 * Math.PI * pitch * time);
  }
  return buffer;
};

/** Makes the sounds of a click once for a context. A silent step has none. */
export const clickSounds: Sounding<Click> = (context) => {
  const voices = new Map(
    Object.entries(VOICES).map(([strength, voice]) => [strength, toneOf(context, voice)]),
  );
  return ({ strength }, at, into) => {
    const buffer = voices.get(strength);
    if (buffer === undefined) return [];
    const source = context.createBufferSource();
    source.buffer = buffer;
    source.connect(into);
    source.start(at);
    return [source];
  };
};
