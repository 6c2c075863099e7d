import * as v from "valibot";
import { id, seat, share } from "../document/schema.ts";
import { chairExists, firstOf, seatExists, songExists } from "./checks.ts";
import { defineCommand } from "./command.ts";
import { setFields } from "./fields.ts";

/** Casts one chair in one song: whether it plays, whether the song needs it, who sits there, how much it counts. */
export const castPart = defineCommand({
  name: "castPart",
  schema: v.object({
    song: id,
    chair: id,
    plays: v.optional(v.boolean()),
    needed: v.optional(v.boolean()),
    holder: v.optional(seat),
    share: v.optional(share),
  }),
  check: (board, { song, chair, holder }) =>
    firstOf(songExists(board, song), chairExists(board, chair), seatExists(board, holder ?? "")),
  write: (set, { song, chair, ...fields }) => setFields(set, "castings", [song, chair], fields),
});

/** A player declares that a part holds nothing special (empty member takes it back). */
export const declareNothingSpecial = defineCommand({
  name: "declareNothingSpecial",
  schema: v.object({ song: id, chair: id, member: seat }),
  check: (board, { song, chair, member }) =>
    firstOf(songExists(board, song), chairExists(board, chair), seatExists(board, member)),
  write: (set, { song, chair, member }) => set("castings", `${song}/${chair}/nothingSpecial`, member),
});
