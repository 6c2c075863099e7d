import * as v from "valibot";
import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { type Rehearsal, USUAL_EVENING } from "../board/rehearsal.ts";
import type { Json, SetKey } from "../document/board-document.ts";
import { clockTime, day, id, line, minutes, PLANNED_BLOCK, pin } from "../document/schema.ts";
import type { Day } from "../lib/calendar.ts";
import { firstOf, gigExists, songExists } from "./checks.ts";
import { defineCommand, type Refusal, type RunContext, refuse } from "./command.ts";
import { setFields } from "./fields.ts";

export const rehearsalOf = (board: Pick<Board, "rehearsals">, on: Day): Rehearsal | undefined =>
  board.rehearsals.find((rehearsal) => rehearsal.day === on);

export const rehearsalExists = (board: Board, on: Day): Refusal | null =>
  rehearsalOf(board, on) === undefined
    ? refuse("gone", "There is no rehearsal on that day. Plan one, or pick another day.")
    : null;

/**
 * Writes fields of an evening, and the marks that make it a record where it is none: it may be known so far by nothing but who
 * comes, or have been called off. Taking it back then takes the record off the board.
 */
const putDown = (
  set: SetKey,
  day: Day,
  fields: { readonly [name: string]: Json | undefined },
  { stored }: RunContext,
): void => {
  setFields(set, "rehearsals", [day], fields);
  if (stored("rehearsals", `${day}/deleted`) !== false) set("rehearsals", `${day}/deleted`, false);
  if (fields.booked === undefined && stored("rehearsals", `${day}/booked`) === undefined)
    set("rehearsals", `${day}/booked`, USUAL_EVENING.booked);
};

/**
 * Plans a hired evening, or changes what was planned for it: what is left out stays. There is one a day. A day in the
 * past is fine: it can still be described.
 */
export const planRehearsal = defineCommand({
  name: "planRehearsal",
  schema: v.object({
    day,
    place: v.optional(line),
    start: v.optional(clockTime),
    booked: v.optional(minutes),
    setUp: v.optional(minutes),
    pause: v.optional(minutes),
    packDown: v.optional(minutes),
    gig: v.optional(v.nullable(id)),
  }),
  check: (board, { day, gig, ...given }) => {
    const known = { ...USUAL_EVENING, ...rehearsalOf(board, day) };
    const { booked, setUp, pause, packDown } = {
      booked: given.booked ?? known.booked,
      setUp: given.setUp ?? known.setUp,
      pause: given.pause ?? known.pause,
      packDown: given.packDown ?? known.packDown,
    };
    return firstOf(
      setUp + pause + packDown > booked
        ? refuse(
            "invalid",
            `Set-up, pause and pack-down take ${setUp + pause + packDown} minutes, and ${booked} are booked. Book more or take less off.`,
          )
        : null,
      gig === undefined || gig === null ? null : gigExists(board, gig),
    );
  },
  write: (set, { day, ...fields }, context) => putDown(set, day, fields, context),
});

/** Says that playing begins. Said twice, the first time stands; an evening that was ended goes on. */
export const startRehearsal = defineCommand({
  name: "startRehearsal",
  schema: v.object({ day }),
  write: (set, { day }, context, board) => {
    const { now } = context;
    const known = rehearsalOf(board, day);
    putDown(set, day, {}, context);
    if (known?.startedAt == null) set("rehearsals", `${day}/startedAt`, now);
    if (known?.endedAt != null) set("rehearsals", `${day}/endedAt`, null);
  },
});

/** Says that playing is over for the evening. */
export const endRehearsal = defineCommand({
  name: "endRehearsal",
  schema: v.object({ day }),
  check: (board, { day }) =>
    rehearsalOf(board, day)?.startedAt == null
      ? refuse("invalid", "This rehearsal has not begun, so it cannot end. Start it first.")
      : null,
  write: (set, { day }, { now }) => set("rehearsals", `${day}/endedAt`, now),
});

const songsAreThere = (board: Board, songs: readonly Id[]): Refusal | null =>
  firstOf(...songs.map((song) => songExists(board, song)));

/** What the evening is to be spent on, in playing order, so that every phone shows the same next song. Empty = no plan. */
export const choosePlan = defineCommand({
  name: "choosePlan",
  schema: v.object({ day, plan: v.pipe(v.array(PLANNED_BLOCK), v.maxLength(200, "plan at most 200 songs")) }),
  check: (board, { plan }) =>
    songsAreThere(
      board,
      plan.map(({ song }) => song),
    ),
  write: (set, { day, plan }, context) => putDown(set, day, { plan }, context),
});

/** Asks for a song tonight, or not tonight; empty takes it back. */
export const pinSong = defineCommand({
  name: "pinSong",
  schema: v.object({ day, song: id, pin }),
  check: (board, { song }) => songExists(board, song),
  write: (set, { day, song, pin }) => set("pins", `${day}/${song}`, pin),
});
