import type { GridSound, GridStep, GridTone } from "#shared/music/grid-playback.ts";
import type { Sounding } from "./player.ts";

/** What a tone is at a moment (s), −1 to 1; and how long (s) it can be. */
interface Voice {
  readonly seconds: number;
  /** Height of its peak against full scale. */
  readonly peak: number;
  /** True where it ends with its note; what is struck rings out. */
  readonly held: boolean;
  readonly at: (time: number, noise: () => number) => number;
}

const wave = (pitch: number, time: number): number => Math.sin(2 * Math.PI * pitch * time);

/** A tone that falls from one pitch (Hz) to another. */
const falling = (from: number, to: number, fall: number, decay: number) => (time: number) =>
  Math.sin(2 * Math.PI * (to * time + (from - to) * fall * (1 - Math.exp(-time / fall)))) *
  Math.exp(-time / decay);

/** Noise without its low end. */
const hiss = (noise: () => number): number => (noise() - noise()) / 2;

/** Harmonics that get weaker by their number. */
const strung = (pitch: number, harmonics: number, decay: number, peak: number): Voice => ({
  seconds: 2.5,
  peak,
  held: true,
  at: (time) => {
    let sum = 0;
    for (let k = 1; k <= harmonics; k += 1) sum += wave(pitch * k, time) / (k * k ** 0.5);
    return (sum / 1.6) * Math.exp(-time / decay);
  },
});

const CLAPS = [0, 0.011, 0.023] as const;

/** Every sound is worked out here. A grid knows no pitches, so each instrument has one note of its own. */
const VOICES: { readonly [T in GridTone]: Voice } = {
  click: { seconds: 0.025, peak: 0.2, held: false, at: (t) => wave(1320, t) * Math.exp(-t / 0.005) },
  kick: { seconds: 0.35, peak: 0.5, held: false, at: falling(150, 48, 0.03, 0.1) },
  snare: {
    seconds: 0.28,
    peak: 0.32,
    held: false,
    at: (t, noise) => 0.7 * noise() * Math.exp(-t / 0.07) + 0.4 * wave(190, t) * Math.exp(-t / 0.05),
  },
  hats: { seconds: 0.1, peak: 0.2, held: false, at: (t, noise) => hiss(noise) * Math.exp(-t / 0.025) },
  crash: { seconds: 1.4, peak: 0.24, held: false, at: (t, noise) => hiss(noise) * Math.exp(-t / 0.4) },
  ride: {
    seconds: 0.6,
    peak: 0.16,
    held: false,
    at: (t, noise) => (0.3 * hiss(noise) + 0.3 * wave(2960, t) + 0.2 * wave(4230, t)) * Math.exp(-t / 0.16),
  },
  toms: { seconds: 0.4, peak: 0.4, held: false, at: falling(170, 95, 0.06, 0.13) },
  clap: {
    seconds: 0.25,
    peak: 0.28,
    held: false,
    at: (t, noise) =>
      noise() *
        CLAPS.reduce<number>((sum, from) => sum + (t < from ? 0 : Math.exp((from - t) / 0.012)), 0) *
        0.5 +
      0.3 * noise() * Math.exp(-t / 0.06),
  },
  bass: strung(82.4, 6, 0.9, 0.4),
  guitar: strung(196, 8, 0.6, 0.24),
  keys: strung(261.6, 4, 0.9, 0.24),
  "lead voice": strung(329.6, 3, 4, 0.2),
  "backing voice": strung(392, 3, 4, 0.18),
  brass: strung(233.1, 9, 3, 0.2),
  other: strung(293.7, 4, 0.8, 0.22),
};

const LEVELS: { readonly [S in GridSound["strength"]]: number } = { soft: 0.35, plain: 0.7, strong: 1 };

/** Seconds in which a sound swells and dies, without an edge that would crack. */
const ATTACK = 0.002;
const RELEASE = 0.015;

const round = (share: number): number => 0.5 - 0.5 * Math.cos(Math.PI * Math.min(1, Math.max(0, share)));

const bufferOf = (context: BaseAudioContext, { seconds, peak, at }: Voice): AudioBuffer => {
  const { sampleRate } = context;
  const buffer = context.createBuffer(1, Math.ceil(seconds * sampleRate), sampleRate);
  const samples = buffer.getChannelData(0);
  const noise = (): number => 2 * Math.random() - 1;
  for (let i = 0; i < samples.length; i += 1) {
    const time = i / sampleRate;
    const edges = round(time / ATTACK) * round((seconds - time) / RELEASE);
    samples[i] = peak * edges * Math.max(-1, Math.min(1, at(time, noise)));
  }
  return buffer;
};

/** Makes the sounds of grids for a context, each when it is first needed. */
export const gridSounds: Sounding<GridStep> = (context) => {
  const buffers = new Map<GridTone, AudioBuffer>();
  return ({ sounds }, at, into) =>
    sounds.map(({ tone, strength, lasts }) => {
      const voice = VOICES[tone];
      const buffer = buffers.get(tone) ?? bufferOf(context, voice);
      buffers.set(tone, buffer);
      const source = context.createBufferSource();
      const level = context.createGain();
      source.buffer = buffer;
      level.gain.value = LEVELS[strength];
      source.start(at);
      if (voice.held) {
        const end = Math.max(2 * RELEASE, Math.min(lasts, voice.seconds));
        level.gain.setValueAtTime(LEVELS[strength], at + end - RELEASE);
        level.gain.linearRampToValueAtTime(0, at + end);
        source.stop(at + end);
      }
      source.onended = () => level.disconnect();
      source.connect(level).connect(into);
      return source;
    });
};
