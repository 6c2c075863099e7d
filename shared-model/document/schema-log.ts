/** The values of what a band logs, rules and asks: takes, slips, rulings, questions, waivers. */
import * as v from "valibot";
import { feel, id, line, moment, note, source, takeKind, tempo, upTo } from "./schema.ts";

export const scope = v.variant("of", [
  v.object({ of: v.literal("whole") }),
  v.object({ of: v.literal("sections"), sections: v.array(id) }),
  v.object({ of: v.literal("cards"), cards: v.array(id) }),
]);
export const seats = v.pipe(v.array(v.object({ chair: id, member: id })), v.maxLength(128));

export const TAKE_MARK = v.object({
  kind: takeKind,
  at: moment,
  seats,
  scope,
  feel,
  tempoStart: v.nullable(tempo),
  tempoEnd: v.nullable(tempo),
  key: v.nullable(line),
  /** The person who logged it, as their device says; empty = unknown. */
  by: v.optional(v.string(), ""),
  withdrawn: v.boolean(),
});
export type TakeMark = v.InferOutput<typeof TAKE_MARK>;

export const SLIP_MARK = v.object({ severity: v.picklist([0, 0.5, 1, 2]), at: moment });

export const RULING = v.object({
  song: id,
  card: v.nullable(id),
  about: line,
  source,
  text: note,
  before: note,
  why: v.optional(note, ""),
  over: v.optional(v.nullable(v.array(id)), null),
  by: v.string(),
  at: moment,
  withdrawn: v.optional(v.boolean(), false),
});

/** Longest question and longest answer, in characters. */
export const QUESTION_MAX = 500;
export const questionText = v.pipe(v.string(), v.maxLength(QUESTION_MAX, upTo(QUESTION_MAX)));

export const QUESTION = v.object({
  song: id,
  card: v.nullable(id),
  chair: v.nullable(id),
  gig: v.nullable(id),
  to: v.optional(v.nullable(id), null),
  ruling: v.optional(v.nullable(id), null),
  text: questionText,
  by: v.string(),
  at: moment,
  settled: v.optional(v.boolean(), false),
  withdrawn: v.optional(v.boolean(), false),
});

export const ANSWER = v.object({
  text: questionText,
  by: v.string(),
  at: moment,
  withdrawn: v.optional(v.boolean(), false),
});

export const WAIVER = v.object({ by: v.string(), at: moment, note: line, withdrawn: v.boolean() });
