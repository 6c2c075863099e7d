/** Details dropped while the record runs: where they lie in the form, and how a device keeps them until they go on the board. */
import * as v from "valibot";
import type { SongFile } from "../board/board.ts";
import { CARD_KINDS, type CardKind, type Where } from "../board/card.ts";
import { type ClockStretch, type FormMoment, momentAt } from "../music/form-clock.ts";
import { beatsPerBar, parseMetre } from "../music/metre.ts";
import { secondsPerBeat } from "../music/tempo.ts";

/** Something heard at a moment of the record. */
export interface Spotted {
  readonly id: string;
  /** Seconds since the record began. */
  readonly clock: number;
  /** Whose it is; null = to be placed later. */
  readonly chair: string | null;
  readonly kind: CardKind;
  readonly text: string;
}

/** A listening that is under way or waits to be put on the board. */
export interface Listening {
  /** Moment (ms) at which the record began; null while it does not run. */
  readonly startedAt: number | null;
  /** Seconds of the record before bar 1 of the form. */
  readonly lead: number;
  readonly spotted: readonly Spotted[];
}

export const NO_LISTENING: Listening = { startedAt: null, lead: 0, spotted: [] };

/** Longest record and most details of one listening. */
export const CLOCK_MAX = 3600;
export const SPOTTED_MAX = 500;

const KEPT = v.object({
  startedAt: v.nullable(v.number()),
  lead: v.pipe(v.number(), v.minValue(-CLOCK_MAX), v.maxValue(CLOCK_MAX)),
  spotted: v.pipe(
    v.array(
      v.object({
        id: v.string(),
        clock: v.pipe(v.number(), v.minValue(0), v.maxValue(CLOCK_MAX)),
        chair: v.nullable(v.string()),
        kind: v.picklist(CARD_KINDS),
        text: v.string(),
      }),
    ),
    v.maxLength(SPOTTED_MAX),
  ),
});

/** What a device kept of a listening; nothing where that cannot be read. */
export const readListening = (text: string | null): Listening => {
  if (text === null) return NO_LISTENING;
  try {
    const kept = v.safeParse(KEPT, JSON.parse(text));
    return kept.success ? kept.output : NO_LISTENING;
  } catch {
    return NO_LISTENING;
  }
};

export const keepListening = (listening: Listening): string => JSON.stringify(listening);

/** Things that are heard most and missed most, each said with one tap. */
export const QUICK_WORDS: readonly { readonly text: string; readonly kind: CardKind }[] = [
  { text: "Rests", kind: "rest" },
  { text: "Comes in", kind: "entry" },
  { text: "All stop", kind: "stop" },
  { text: "Push", kind: "push" },
  { text: "Fill", kind: "fill" },
  { text: "Louder", kind: "dynamics" },
  { text: "Softer", kind: "dynamics" },
  { text: "Other pattern", kind: "pattern" },
  { text: "Other sound", kind: "tone" },
  { text: "Crash", kind: "cymbals" },
  { text: "Second voice", kind: "harmony" },
];

type Form = Pick<SongFile, "song" | "sections">;

/** The form as a clock reads it; empty while the form or the tempo is missing. */
export const clockOf = ({ song, sections }: Form): readonly ClockStretch[] => {
  const stretches: ClockStretch[] = [];
  for (const { id, bars, repeats, metre, tempo } of sections) {
    const read = parseMetre(metre === "" ? song.metre : metre);
    const bpm = tempo ?? song.tempo;
    if (bpm === null || !read.ok) return [];
    stretches.push({
      section: id,
      bars,
      repeats,
      beats: beatsPerBar(read.value),
      beatSeconds: secondsPerBeat(bpm),
    });
  }
  return stretches;
};

/** `V2 b5 beat 3`, `V2 b5 beat 3, 2nd time`. */
const momentWords = ({ section, pass, bar, beat }: FormMoment, { sections }: Form): string => {
  const at = sections.find(({ id }) => id === section);
  const time = (at?.repeats ?? 1) > 1 ? `, time ${pass}` : "";
  return `${at?.name ?? ""} b${bar} beat ${beat}${time}`;
};

/** Where the record is, for whoever follows along. */
export const hereWords = (file: Form, clock: number, lead: number): string => {
  const form = clockOf(file);
  if (form.length === 0)
    return file.sections.length === 0
      ? "No form yet: what you drop is kept by the clock alone."
      : "No tempo yet: what you drop is kept by the clock alone.";
  const moment = momentAt(form, clock - lead);
  if (moment !== null) return momentWords(moment, file);
  return clock < lead ? "Before bar 1" : "After the last bar";
};

/** The place of something heard at `clock`: section, bar and beat where form and tempo are known, and the clock in any case. */
export const placeOf = (file: Form, clock: number, lead: number): Where => {
  const said = Math.round(clock * 10) / 10;
  const moment = momentAt(clockOf(file), clock - lead);
  if (moment === null) return { clock: said };
  const { section, pass, bar, beat } = moment;
  const comesRound = (file.sections.find(({ id }) => id === section)?.repeats ?? 1) > 1;
  return { from: { section, bar, beat }, clock: said, ...(comesRound ? { pass } : {}) };
};

/** Minutes, seconds and tenths: `1:42.3`. */
export const clockWords = (clock: number): string => {
  const tenths = Math.max(0, Math.floor(clock * 10 + 1e-6));
  const minutes = Math.floor(tenths / 600);
  return `${minutes}:${((tenths % 600) / 10).toFixed(1).padStart(4, "0")}`;
};
