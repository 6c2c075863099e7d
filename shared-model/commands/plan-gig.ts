import * as v from "valibot";
import { arc, blocks, clockTime, day, id, line, minutes, name, note } from "../document/schema.ts";
import { gigExists } from "./checks.ts";
import { defineCommand } from "./command.ts";
import { setFields } from "./fields.ts";

/** Puts a gig on the calendar. A day in the past is fine: its performances can still be logged. */
export const planGig = defineCommand({
  name: "planGig",
  schema: v.object({ name, date: day, minutes, place: v.optional(line, "") }),
  write: (set, args, { newId }) => setFields(set, "gigs", [newId()], { ...args, deleted: false }),
});

/** Changes what is agreed about a gig: day, place, minutes, blocks, times, dress, whom to ring; or the note that is kept of it. */
export const reviseGig = defineCommand({
  name: "reviseGig",
  schema: v.object({
    gig: id,
    name: v.optional(name),
    date: v.optional(day),
    minutes: v.optional(minutes),
    place: v.optional(line),
    blocks: v.optional(blocks),
    arc: v.optional(arc),
    talk: v.optional(minutes),
    call: v.optional(clockTime),
    start: v.optional(clockTime),
    dress: v.optional(line),
    contact: v.optional(line),
    note: v.optional(note),
  }),
  check: (board, { gig }) => gigExists(board, gig),
  write: (set, { gig, ...fields }) => setFields(set, "gigs", [gig], fields),
});
