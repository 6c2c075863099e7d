/**
 * What a detail may show beside its words, apart from a grid and a fretted shape. One entry here is all that a side needs:
 * the command, the history, the forms and the drawings read it from this list. A name is stored, so it is for ever.
 */
import type { CardKind, SideName, StoredSide } from "../card.ts";
import { FRET_MOST } from "../grid.ts";
import {
  type Entries,
  emptyEntries,
  faultInEntries,
  readEntries,
  saysSomething,
  type ValueOf,
} from "./entry.ts";
import { SIDE_LABELS } from "./side-labels.ts";
import * as say from "./side-words.ts";

/** `E`: what it holds. */
export interface Side<E extends Entries = Entries> {
  /** Details of these kinds have it usually; every other may. */
  readonly kinds: readonly CardKind[];
  readonly entries: E;
  /** What entries that fit one by one get wrong together, in one sentence that says what to do. */
  readonly clash?: (value: ValueOf<E>) => string | null;
  /** What hands should know before they try; null = nothing. */
  readonly caution?: (value: ValueOf<E>) => string | null;
  /** One sentence, for ears, paper and the history. */
  readonly words: (value: ValueOf<E>, names: say.SideNames) => string;
}

const side = <const E extends Entries>(declared: Side<E>): Side<E> => declared;

const knob = (label: string) => ({ of: "number", label, low: 0, high: 10, step: 0.5 }) as const;
const KNOBS = ["gain", "volume", "tone"] as const;

const TONE = side({
  kinds: ["tone"],
  entries: {
    gain: knob("Gain"),
    volume: knob("Volume"),
    tone: knob("Tone"),
    pickup: { of: "word", label: "Pickup", words: ["neck", "middle", "bridge", "both"] },
    effects: { of: "switches", label: "Effects" },
  },
  words: (value) => {
    const knobs = KNOBS.flatMap((name) => (value[name] === null ? [] : [`${name} ${value[name]}`]));
    const { pickup, effects } = value;
    return say.sentenceOf([
      knobs.length === 0 ? null : `${knobs.join(", ")} of 10`,
      pickup === null ? null : pickup === "both" ? "both pickups" : `${pickup} pickup`,
      effects.map(({ name, on }) => `${name} ${on ? "on" : "off"}`).join(", "),
    ]);
  },
});

const HARMONY = side({
  kinds: ["harmony"],
  entries: {
    steps: {
      of: "number",
      label: "Interval",
      low: -say.STEPS_MOST,
      high: say.STEPS_MOST,
      step: 1,
      say: say.intervalWords,
    },
    lead: { of: "chair", label: "Who leads" },
    vowel: { of: "word", label: "Sung on", words: ["oo", "ah", "oh", "eh", "ee", "mm", "the words"] },
    cutBeat: { of: "number", label: "Cut-off on beat", low: 1, high: 32, step: 0.5 },
    cutWord: { of: "cue", label: "Cut-off after the word" },
  },
  words: ({ steps, lead, vowel, cutBeat, cutWord }, names) => {
    const leader = lead === null ? "the lead" : names.chair(lead);
    return say.sentenceOf([
      steps === null ? (lead === null ? null : `led by ${leader}`)
      : steps === 0 ? `in unison with ${leader}`
      : `${say.intervalWords(steps)} ${leader}`,
      vowel === null ? null : vowel === "the words" ? "sung on the words" : `sung on ‘${vowel}’`,
      cutBeat === null && cutWord === "" ? null
      : `cut off${cutBeat === null ? "" : ` on beat ${say.beatWords(cutBeat)}`}${cutWord === "" ? "" : ` after ‘${cutWord}’`}`,
    ]);
  },
}); // biome-ignore format: one decision

const levelEntry = (label: string) =>
  ({
    of: "number", label, low: 1, high: say.LEVELS_MOST, step: 1, say: say.loudnessWords,
  }) as const; // biome-ignore format: one glance

const DYNAMICS = side({
  kinds: ["dynamics", "lift"],
  entries: { from: levelEntry("From"), to: levelEntry("To") },
  words: ({ from, to }) => {
    const level = from ?? to ?? 1;
    if (from === null || to === null || from === to)
      return say.sentenceOf([say.loudnessWords(level), `level ${level} of ${say.LEVELS_MOST}`]);
    return say.sentenceOf([
      `${from < to ? "grows" : "falls"} from ${say.loudnessWords(from)} to ${say.loudnessWords(to)}`,
      `level ${from} to ${to} of ${say.LEVELS_MOST}`,
    ]);
  },
});

const CYMBALS = side({
  kinds: ["cymbals"],
  entries: {
    plan: {
      of: "sections",
      label: "Cymbals",
      words: ["none", "closed hats", "open hats", "ride", "ride bell", "crash", "floor tom"],
    },
  },
  words: ({ plan }, { sections }) => {
    const here = sections.filter(({ id }) => plan[id] !== undefined);
    const used = [...new Set(here.map(({ id }) => plan[id] ?? "none"))];
    const parts = used.map((word) => {
      const names = here.filter(({ id }) => plan[id] === word).map(({ name }) => name);
      return `${word === "none" ? "no cymbals" : word} in ${say.listedNames(names)}`;
    });
    return parts.length === 0
      ? "The sections this was written for are no longer in the form."
      : say.sentenceOf(parts);
  },
});

const ENDINGS = {
  hit: "ends on a hit",
  ritardando: "ritardando: slows into the end",
  fade: "fades out",
  cold: "cold: stops without slowing down",
  vamp: "vamps until the cue",
} as const;

const ENDING = side({
  kinds: ["ending"],
  entries: {
    how: { of: "word", label: "How it ends", words: ["hit", "ritardando", "fade", "cold", "vamp"] },
    cue: { of: "chair", label: "Who gives the cue" },
    lastBeat: { of: "number", label: "Last note on beat", low: 1, high: 32, step: 0.5 },
    times: { of: "number", label: "How often it is played", low: 1, high: 99, step: 1 },
  },
  words: ({ how, cue, lastBeat, times }, names) =>
    say.sentenceOf([
      how === null ? null : ENDINGS[how],
      times === null ? null : `played ${say.timesWords(times)}`,
      lastBeat === null ? null : `last note on beat ${say.beatWords(lastBeat)}`,
      cue === null ? null : `cue from ${names.chair(cue)}`,
    ]),
});

const fretEntry = (label: string) => ({ of: "number", label, low: 1, high: FRET_MOST, step: 1 }) as const;
const FINGERS = ["index", "middle", "ring", "little"] as const;
/** Frets a hand covers without moving; common practice, no published source. */
const WIDE = 5;

const HAND = side({
  kinds: ["position"],
  entries: {
    from: fretEntry("From fret"),
    to: fretEntry("To fret"),
    index: fretEntry("Index finger on fret"),
    middle: fretEntry("Middle finger on fret"),
    ring: fretEntry("Ring finger on fret"),
    little: fretEntry("Little finger on fret"),
  },
  clash: (value) => {
    const { from, to } = value;
    if (from === null || to === null) return "Say from which fret to which fret the hand stands.";
    if (to < from) return `Put the frets in order: ${to} lies below ${from}.`;
    const placed = FINGERS.map((finger) => value[finger]).filter((fret) => fret !== null);
    if (placed.some((fret) => fret < from || fret > to))
      return `Keep the fingers between fret ${from} and fret ${to}, or change the frets.`;
    return placed.some((fret, i) => fret < (placed[i - 1] ?? 0))
      ? "Put the fingers in order along the neck: index lowest, little finger highest."
      : null;
  },
  caution: ({ from, to }) =>
    from !== null && to !== null && to - from >= WIDE
      ? `This spans ${to - from + 1} frets, a wide stretch: move the hand rather than hold one that hurts.`
      : null,
  words: (value) => {
    const fingers = FINGERS.flatMap((finger) =>
      value[finger] === null ? [] : [`${finger} finger on ${value[finger]}`],
    );
    const { from, to } = value;
    const range = from === to || to === null ? `hand at fret ${from}` : `hand from fret ${from} to ${to}`;
    return say.sentenceOf([from === null ? null : range, fingers.join(", ")]);
  },
});

/** Side by its stored name. */
export const DETAIL_SIDES = {
  tone: TONE,
  harmony: HARMONY,
  dynamics: DYNAMICS,
  cymbals: CYMBALS,
  ending: ENDING,
  hand: HAND,
} satisfies Record<SideName, unknown>;

/** What one side, or any, says; every entry is there. */
export type SideValue<S extends SideName = SideName> = ValueOf<(typeof DETAIL_SIDES)[S]["entries"]>;

// Entries and words of one side belong to each other; who has the side by its name cannot say which.
const declared = (name: SideName): Side => DETAIL_SIDES[name] as unknown as Side;

export const sideEntries = (name: SideName): Entries => declared(name).entries;
export const sideKinds = (name: SideName): readonly CardKind[] => declared(name).kinds;

/** Nothing said yet: what a form begins with. */
export const emptySide = (name: SideName): StoredSide => emptyEntries(declared(name).entries);

/** True where at least one entry says something. */
export const isSideSaid = (stored: StoredSide): boolean => saysSomething(stored);

/** Why this cannot be kept, in one sentence that says what to do; null when it can. */
export const sideFault = (name: SideName, stored: StoredSide): string | null => {
  const { entries, clash } = declared(name);
  const fault = faultInEntries(entries, stored);
  if (fault !== null) return fault;
  const value = readEntries(entries, stored);
  if (!saysSomething(value))
    return `Say at least one thing for the ${SIDE_LABELS[name]}, or take it off the detail.`;
  return clash?.(value) ?? null;
};

/** What a stored side says; null where it says nothing that can be used. */
export const readSide = <S extends SideName>(
  name: S,
  stored: StoredSide | null | undefined,
): SideValue<S> | null => {
  if (stored === null || stored === undefined) return null;
  const { entries, clash } = declared(name);
  const value = readEntries(entries, stored);
  const stands = saysSomething(value) && (clash?.(value) ?? null) === null;
  return stands ? (value as unknown as SideValue<S>) : null;
};

/** One sentence about what `readSide` gave. */
export const sideWords = (name: SideName, value: StoredSide, names: say.SideNames): string =>
  declared(name).words(readEntries(declared(name).entries, value), names);

/** What hands should know before they try what `readSide` gave; null = nothing. */
export const sideCaution = (name: SideName, value: StoredSide): string | null =>
  declared(name).caution?.(readEntries(declared(name).entries, value)) ?? null;
