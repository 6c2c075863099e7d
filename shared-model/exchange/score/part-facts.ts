/** What a score says of one part: what plays it, how high it goes, and in which sections it plays how much. */
import { INSTRUMENTS, type Instrument } from "../../board/band.ts";
import type { Presence, TextureChanges } from "../../board/texture.ts";
import type { ScoreFacts, ScorePart } from "./score-facts.ts";
import type { ScoreSection } from "./section-facts.ts";

/** Names of parts as scores have them; common practice, no published source. The first that fits counts. */
const NAMES: readonly (readonly [RegExp, Instrument])[] = [
  [/drum|\bkit\b|percussion/i, "drums"],
  [
    /back(ing|ground)?\b.*(voc|voice|vox)|\bbv\b|harmony|choir|\balto\b(?!.*sax)|soprano(?!.*sax)/i,
    "backing voice",
  ],
  [/voc|voice|\bvox\b|sing|melod|\blead$/i, "lead voice"],
  [/contrabass|double bass|\bbass\b(?!oon)(?!.*(clarinet|trombone|drum))/i, "bass"],
  [/guit|\bgtr\b|banjo|ukulele|mandolin/i, "guitar"],
  [/trumpet|trombone|\bhorns?\b|brass|\bsax|flugel|tuba/i, "brass"],
  [/piano|keys|keyboard|organ|synth|\bpad\b|strings|clav|rhodes/i, "keys"],
];

/** Groups of eight programs of General MIDI Level 1 (RP-003), counted from 0, by what of a band plays them. */
const GROUPS: readonly Instrument[] = [
  "keys", "keys", "keys", "guitar", "bass", "keys", "keys", "brass",
  "brass", "other", "keys", "keys", "keys", "guitar", "drums", "other",
]; // biome-ignore format: one row a half
/** Choir aahs, voice oohs and synth voice stand among the ensembles. */
const VOICES = [52, 53, 54];

/** What of a band plays a part, as far as its channel, its name and its program say. */
export const instrumentOf = ({
  name,
  program,
  percussion,
}: Pick<ScorePart, "name" | "program" | "percussion">): Instrument => {
  if (percussion) return "drums";
  const named = NAMES.find(([pattern]) => pattern.test(name))?.[1];
  if (named) return named;
  if (program === null) return "other";
  return VOICES.includes(program) ? "backing voice" : (GROUPS[Math.floor(program / 8)] ?? "other");
};

/** Lowest and highest note; null for percussion and silence. */
export const rangeOf = ({ notes, percussion }: ScorePart): readonly [low: number, high: number] | null => {
  if (percussion || notes.length === 0) return null;
  let [low, high] = [127, 0];
  for (const { pitch } of notes) [low, high] = [Math.min(low, pitch), Math.max(high, pitch)];
  return [low, high];
};

/** How long each note sounds (quarter notes), from the lowest up. */
export const timeOnNotes = ({
  notes,
}: ScorePart): readonly (readonly [pitch: number, quarters: number])[] => {
  const times = new Map<number, number>();
  for (const { pitch, length } of notes) times.set(pitch, (times.get(pitch) ?? 0) + length);
  return [...times].filter(([, time]) => time > 0).sort(([a], [b]) => a - b);
};

/** Notes that begin in each bar, and whether anything sounds in it. */
export interface BarDensity {
  readonly onsets: readonly number[];
  readonly sounds: readonly boolean[];
}

/** The last bar that begins before a place. */
const barBefore = (facts: ScoreFacts, from: number, place: number): number => {
  let low = from;
  let high = facts.bars.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((facts.bars[middle]?.start ?? 0) < place) low = middle;
    else high = middle - 1;
  }
  return low;
};

/** What hangs over a bar line by less than this (quarter notes) was only held a little long. */
const OVERHANG = 1 / 8;

/** `notes` in the order in which they begin. */
export const densityOf = (facts: ScoreFacts, notes: ScorePart["notes"]): BarDensity => {
  const onsets = facts.bars.map(() => 0);
  const steps = facts.bars.map(() => 0);
  let [atBar, atBeat] = [-1, -1];
  for (const { bar, beat, length } of notes) {
    // A chord is one stroke.
    if (bar !== atBar || beat !== atBeat) onsets[bar] = (onsets[bar] ?? 0) + 1;
    [atBar, atBeat] = [bar, beat];
    const end = (facts.bars[bar]?.start ?? 0) + beat + length - OVERHANG;
    const last = barBefore(facts, bar, end);
    steps[bar] = (steps[bar] ?? 0) + 1;
    if (last + 1 < steps.length) steps[last + 1] = (steps[last + 1] ?? 0) - 1;
  }
  let sounding = 0;
  const sounds = steps.map((step) => {
    sounding += step;
    return sounding > 0;
  });
  return { onsets, sounds };
};

/**
 * Bounds of the four words, as shares of the bars in which a part sounds and of the fullest section it has: our own
 * measure, common practice, no published source.
 */
const RESTS = 0.1;
const HALF = 0.5;
const THIN = 0.35;
const FULL = 0.85;
/** Sections at least this long may have an entry half-way, after at least so many bars of rest. */
const LONG = 4;
const WAITS = 2;

const meanOf = (numbers: readonly number[]): number =>
  numbers.length === 0 ? 0 : numbers.reduce((sum, n) => sum + n, 0) / numbers.length;

interface Stretch {
  readonly first: number;
  readonly last: number;
  readonly share: number;
  readonly density: number;
}

/** Where in a section a part begins and ends, counted from 0, and how it plays between. */
const stretchOf = ({ from, bars }: ScoreSection, density: BarDensity): Stretch | null => {
  const sounds = density.sounds.slice(from, from + bars);
  const share = meanOf(sounds.map(Number));
  if (share === 0 || share < RESTS) return null;
  const begin = sounds.indexOf(true);
  const end = sounds.lastIndexOf(true);
  const first = bars >= LONG && begin >= WAITS ? begin : 0;
  const last = bars >= LONG && bars - 1 - end >= WAITS ? end : bars - 1;
  return {
    first,
    last,
    share: meanOf(sounds.slice(first, last + 1).map(Number)),
    density: meanOf(density.onsets.slice(from + first, from + last + 1)),
  };
};

/** How a part plays in each section of the form: an entry or an end half-way is said with its bar. */
export const presenceOf = (form: readonly ScoreSection[], density: BarDensity): readonly TextureChanges[] => {
  const stretches = form.map((section) => stretchOf(section, density));
  const most = Math.max(0, ...stretches.map((stretch) => stretch?.density ?? 0));
  return form.map((section, i) => {
    const stretch = stretches[i];
    const change = (bar: number, presence: Presence) => ({ bar, pass: null, presence });
    if (!stretch) return [change(1, "rest")];
    const { first, last, share, density: own } = stretch;
    const ratio = most === 0 ? 1 : own / most;
    const presence: Presence =
      share < HALF || ratio < THIN ? "light" : share >= FULL && ratio >= FULL ? "full" : "play";
    return [
      ...(first > 0 ? [change(1, "rest")] : []),
      change(first + 1, presence),
      ...(last < section.bars - 1 ? [change(last + 2, "rest")] : []),
    ];
  });
};

/** A chair for each part, by what plays it: a chair once, the first of several; null = the band has none for it. */
export const suggestChairs = (
  instruments: readonly Instrument[],
  chairs: readonly { readonly id: string; readonly instrument: Instrument }[],
): readonly (string | null)[] => {
  const taken = new Set<string>();
  const take = (wanted: Instrument): string | null => {
    const chair = chairs.find(({ id, instrument }) => instrument === wanted && !taken.has(id));
    if (chair) taken.add(chair.id);
    return chair?.id ?? null;
  };
  return instruments.map((instrument) =>
    INSTRUMENTS.includes(instrument) && instrument !== "other" ? take(instrument) : null,
  );
};
