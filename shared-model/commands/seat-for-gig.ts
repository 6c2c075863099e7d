import * as v from "valibot";
import { GATES } from "../board/gate.ts";
import { id, line, seat } from "../document/schema.ts";
import { chairExists, firstOf, gigExists, seatExists, songExists } from "./checks.ts";
import { defineCommand } from "./command.ts";

/** Says who holds a chair at one gig: somebody, nobody (empty), or null for the usual player. */
export const seatForGig = defineCommand({
  name: "seatForGig",
  schema: v.object({ gig: id, chair: id, member: v.nullable(seat) }),
  check: (board, { gig, chair, member }) =>
    firstOf(gigExists(board, gig), chairExists(board, chair), seatExists(board, member ?? "")),
  write: (set, { gig, chair, member }) => set("lineUps", `${gig}/${chair}`, member),
});

/** Lets a gate pass for one song of one gig, by name and with a reason. It never changes a score. */
export const waiveGate = defineCommand({
  name: "waiveGate",
  leaderOnly: true,
  schema: v.object({
    gig: id,
    song: id,
    gate: v.picklist(GATES),
    note: line,
    withdrawn: v.optional(v.boolean(), false),
  }),
  check: (board, { gig, song }) => firstOf(gigExists(board, gig), songExists(board, song)),
  write: (set, { gig, song, gate, note, withdrawn }, { now, author }) =>
    set("waivers", `${gig}/${song}/${gate}`, { by: author.member ?? "", at: now, note, withdrawn }),
});
