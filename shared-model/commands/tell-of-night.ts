import * as v from "valibot";
import { floorDid, id } from "../document/schema.ts";
import { firstOf, gigExists, songExists } from "./checks.ts";
import { defineCommand } from "./command.ts";
import { setFields } from "./fields.ts";

/** Says what no take can say of a song at a gig: that it was left out, and what it did to the floor. An absent entry stays. */
export const tellOfNight = defineCommand({
  name: "tellOfNight",
  schema: v.object({
    gig: id,
    song: id,
    leftOut: v.optional(v.boolean()),
    floorDid: v.optional(floorDid),
  }),
  check: (board, { gig, song }) => firstOf(gigExists(board, gig), songExists(board, song)),
  write: (set, { gig, song, ...fields }) => setFields(set, "setSongs", [gig, song], fields),
});
