/**
 * Every record of the document, declared once: validator → type → default.
 * Additive changes need nothing but a new field with its default here; anything else is a migration.
 */
import * as v from "valibot";
import { ARC_MAX, BLOCKS_OF_GIG_MAX, FLOOR_DID, GIG_PINS, INSTRUMENTS } from "../board/band.ts";
import { CARD_KINDS, RULING_SOURCES, WEIGHTS } from "../board/card.ts";
import { ID_MAX } from "../board/ids.ts";
import { PINS, type PlannedBlock, USUAL_EVENING } from "../board/rehearsal.ts";
import { FLOOR_ROLES, SHAPE_MATTERS, STAGES, STRONG_PLACES } from "../board/song.ts";
import { FEELS, TAKE_KINDS } from "../board/take.ts";
import { PRESENCES } from "../board/texture.ts";
import { isMelody, isVoice, type SongMelody, type Voice } from "../board/voice.ts";
import { isDay } from "../lib/calendar.ts";

/** One field of a record: what is valid, and what a reader takes when it is missing or broken. */
export interface Field<T> {
  readonly schema: v.GenericSchema<unknown, T>;
  readonly fallback: T;
}

export type Fields = { readonly [name: string]: Field<unknown> };
export type RecordOf<F extends Fields> = { readonly [K in keyof F]: F[K]["fallback"] };

export const field = <T>(schema: v.GenericSchema<unknown, T>, fallback: T): Field<T> => ({
  schema,
  fallback,
});

/** Longest one-line text (title, name) and longest note, in characters. */
export const LINE_MAX = 200;
export const NOTE_MAX = 4000;
export const BARS_MAX = 999;
export const MINUTES_MAX = 1440;

/** What a text that is too long is told. */
export const upTo = (max: number): string => `write at most ${max} characters`;

export const line = v.pipe(v.string(), v.maxLength(LINE_MAX, upTo(LINE_MAX)));
export const note = v.pipe(v.string(), v.maxLength(NOTE_MAX, upTo(NOTE_MAX)));
export const name = v.pipe(
  v.string(),
  v.trim(),
  v.minLength(1, "write at least one letter"),
  v.maxLength(LINE_MAX, upTo(LINE_MAX)),
);
export const id = v.pipe(
  v.string(),
  v.minLength(1, "it is missing"),
  v.maxLength(ID_MAX, upTo(ID_MAX)),
  v.check((s) => !s.includes("/"), "it may contain no slash"),
);
/** Holder of a chair in a register that cannot be deleted: empty = nobody. */
export const seat = v.union([id, v.literal("")]);
export const moment = v.pipe(v.number(), v.finite());
const between = (low: number, high: number, unit: string): string =>
  `give a number from ${low} to ${high}${unit}`;
const range = (low: number, high: number, unit = "") =>
  v.pipe(
    v.number(between(low, high, unit)),
    v.finite(between(low, high, unit)),
    v.minValue(low, between(low, high, unit)),
    v.maxValue(high, between(low, high, unit)),
  );
export const whole = (low: number, high: number, unit = "") =>
  v.pipe(range(low, high, unit), v.integer(`give a whole number from ${low} to ${high}${unit}`));
export const tempo = range(20, 400, " beats per minute");
export const bars = whole(1, BARS_MAX, " bars");
export const day = v.pipe(
  v.string(),
  v.check((s: string) => isDay(s), "give a day of the calendar as year-month-day"),
);
export const minutes = range(0, MINUTES_MAX, " minutes");
export const lengthSeconds = range(1, 3600, " seconds");
export const level = v.picklist([0, 1, 2, 3]);
export const weight = v.picklist(WEIGHTS);
export const kind = v.picklist(CARD_KINDS);
export const source = v.picklist(RULING_SOURCES);
export const stage = v.picklist(STAGES);
export const short = v.pipe(v.string(), v.maxLength(4, upTo(4)));
export const instrument = v.picklist(INSTRUMENTS);
export const feel = v.picklist(FEELS);
export const takeKind = v.picklist(TAKE_KINDS);
export const capo = whole(0, 12, " frets");
export const metre = v.pipe(
  v.string(),
  v.regex(/^\d{1,2}(\+\d{1,2})*\/(1|2|4|8|16|32)$/, "give a metre such as 4/4, 6/8 or 7/8"),
);
export const voice = v.custom<Voice>(isVoice, "put the notes in order");
export const melody = v.custom<SongMelody>(isMelody, "put the notes in order");
export const shapeMatters = v.picklist(SHAPE_MATTERS);
export const tolerance = range(0.5, 20, " percent");
export const energy = whole(1, 5);
export const floor = v.picklist(FLOOR_ROLES);
export const strong = v.picklist(STRONG_PLACES);
/** Empty = the song's. */
export const ownMetre = v.union([v.literal(""), metre], "give a metre such as 4/4, 6/8 or 7/8");
export const repeats = whole(1, 9, " times");
/** Relative share of a part among its song's parts. */
export const share = range(0.1, 10);

const deleted = field(v.boolean(), false);
const order = field(line, "");
export const since = field(moment, 0);

export const BAND = {
  name: field(name, "Our band"),
  timeZone: field(line, "UTC"),
  demo: field(v.boolean(), false),
  tuning: field(line, "standard"),
  /** All own constants in one record, as the first schema kept them; see `constant-keys.ts`. Written no more. */
  settings: field(v.record(v.string(), v.unknown()), {}),
} satisfies Fields;

export const SONG = {
  title: field(name, "Untitled song"),
  stage: field(stage, "learning"),
  style: field(line, ""),
  version: field(line, ""),
  recordKey: field(line, ""),
  key: field(line, ""),
  liftKey: field(line, ""),
  tempo: field(v.nullable(tempo), null),
  metre: field(metre, "4/4"),
  length: field(v.nullable(lengthSeconds), null),
  countIn: field(line, ""),
  firstChord: field(v.nullable(v.object({ chord: line, key: line })), null),
  ending: field(line, ""),
  tuning: field(line, ""),
  capo: field(capo, 0),
  melody: field(v.nullable(melody), null),
  shapeMatters: field(shapeMatters, ""),
  openLow: field(v.boolean(), false),
  tolerance: field(v.nullable(tolerance), null),
  energy: field(v.nullable(energy), null),
  floor: field(floor, ""),
  strong: field(strong, ""),
  hardToSing: field(v.boolean(), false),
  rig: field(line, ""),
  notes: field(note, ""),
  playedBefore: field(v.boolean(), false),
  order,
  addedAt: field(moment, 0),
  keySince: since,
  tempoSince: since,
  formSince: since,
  endingSince: since,
  deleted,
} satisfies Fields;

export const CHAIR = {
  name: field(name, "Chair"),
  short: field(short, ""),
  instrument: field(instrument, "other"),
  holder: field(seat, ""),
  order,
  deleted,
} satisfies Fields;

export const PERSON = {
  name: field(name, "Somebody"),
  dep: field(v.boolean(), false),
  voice: field(v.nullable(voice), null),
  order,
  deleted,
} satisfies Fields;

/** Local time of day; empty = nobody said. */
export const clockTime = v.pipe(
  v.string(),
  v.regex(/^(([01]\d|2[0-3]):[0-5]\d)?$/, "give a time such as 19:30"),
);
/** Contracted minutes of each block of a gig. */
export const blocks = v.pipe(v.array(minutes), v.maxLength(BLOCKS_OF_GIG_MAX));
/** Energies wanted from the first song to the last, 0 to 1. */
export const arc = v.pipe(v.array(range(0, 1)), v.maxLength(ARC_MAX));

export const GIG = {
  name: field(line, ""),
  place: field(line, ""),
  date: field(day, "1970-01-01"),
  minutes: field(minutes, 0),
  blocks: field<readonly number[]>(blocks, []),
  arc: field<readonly number[]>(arc, []),
  talk: field(minutes, 0),
  call: field(clockTime, ""),
  start: field(clockTime, ""),
  dress: field(line, ""),
  contact: field(line, ""),
  note: field(note, ""),
  deleted,
} satisfies Fields;

const BLOCKS_MAX = 200;

export const PLANNED_BLOCK = v.object({
  song: id,
  runs: v.picklist([0, 1, 2]),
  cards: v.pipe(v.array(id), v.maxLength(64)),
  section: v.nullable(id),
  minutes,
});

export const REHEARSAL = {
  place: field(line, ""),
  start: field(clockTime, ""),
  booked: field(minutes, USUAL_EVENING.booked),
  setUp: field(minutes, USUAL_EVENING.setUp),
  pause: field(minutes, USUAL_EVENING.pause),
  packDown: field(minutes, USUAL_EVENING.packDown),
  gig: field(v.nullable(id), null),
  startedAt: field(v.nullable(moment), null),
  endedAt: field(v.nullable(moment), null),
  plan: field<readonly PlannedBlock[]>(v.pipe(v.array(PLANNED_BLOCK), v.maxLength(BLOCKS_MAX)), []),
  deleted,
} satisfies Fields;

export const ATTENDANCE = v.object({
  here: v.boolean(),
  from: v.nullable(moment),
  to: v.nullable(moment),
  at: moment,
});

/** Empty = no pin; the key cannot be deleted. */
export const pin = v.picklist([...PINS, ""]);

export const AWAY = v.object({
  person: id,
  from: day,
  to: day,
  by: v.string(),
  at: moment,
  withdrawn: v.optional(v.boolean(), false),
});

export const SECTION = {
  name: field(name, "Section"),
  bars: field(bars, 8),
  repeats: field(repeats, 1),
  metre: field(ownMetre, ""),
  tempo: field(v.nullable(tempo), null),
  key: field(line, ""),
  order,
  since,
  deleted,
} satisfies Fields;

export const CASTING = {
  plays: field(v.boolean(), true),
  needed: field(v.boolean(), true),
  holder: field(seat, ""),
  share: field(share, 1),
  nothingSpecial: field(seat, ""),
} satisfies Fields;

/** Half-way entries and passes that one section and chair may name. */
const CHANGES_MAX = 32;
export const TEXTURE = v.object({
  changes: v.pipe(
    v.array(v.object({ bar: bars, pass: v.nullable(whole(1, 99)), presence: v.picklist(PRESENCES) })),
    v.maxLength(CHANGES_MAX, `write at most ${CHANGES_MAX} entries`),
  ),
});
export const dismissed = v.boolean();

export const blockIndex = whole(0, BLOCKS_OF_GIG_MAX - 1);
/** Empty = no pin; the key cannot be deleted. */
export const gigPin = v.picklist([...GIG_PINS, ""]);

export const floorDid = v.picklist(FLOOR_DID);

export const SET_SONG = {
  order,
  called: field(v.boolean(), false),
  key: field(v.nullable(line), null),
  tempo: field(v.nullable(tempo), null),
  tuning: field(v.nullable(line), null),
  block: field(blockIndex, 0),
  pin: field(gigPin, ""),
  askedBy: field(line, ""),
  keyAsked: field(v.nullable(v.object({ key: line, by: seat })), null),
  leftOut: field(v.boolean(), false),
  floorDid: field(floorDid, ""),
} satisfies Fields;

export const place = v.object({
  section: id,
  bar: v.optional(bars),
  beat: v.optional(range(1, 32, " beats")),
});
export const where = v.object({
  from: v.optional(place),
  to: v.optional(place),
  pass: v.optional(whole(1, 99)),
  clock: v.optional(range(0, 36_000, " seconds")),
  lost: v.optional(v.literal(true)),
});

export const CARD_BODY = v.object({
  song: id,
  chairs: v.pipe(v.array(id), v.maxLength(64)),
  weight,
  kind,
  where,
  order: line,
  without: v.optional(id),
  source,
  createdBy: v.string(),
  createdAt: moment,
});
export type CardBody = v.InferOutput<typeof CARD_BODY>;

/** `base`: the versions the writer had seen, as writer → at; what it covers is settled. */
export const TEXT_MARK = v.object({
  text: note,
  base: v.record(v.string(), v.number()),
  /** The text the writer saw before; what an undo puts back. */
  was: v.optional(note, ""),
  /** The person who wrote it, as their device says; empty = unknown. */
  by: v.optional(v.string(), ""),
  at: moment,
});
export type TextMark = v.InferOutput<typeof TEXT_MARK>;

/** `from` and `fromAnchor`: what the writer saw before; what an undo puts back. */
export const STATUS_MARK = v.object({
  level,
  from: level,
  anchor: moment,
  fromAnchor: v.optional(moment, 0),
  at: moment,
});
