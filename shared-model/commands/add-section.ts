import * as v from "valibot";
import { orderAt } from "../document/order-plan.ts";
import { bars, id, name, repeats } from "../document/schema.ts";
import { songExists } from "./checks.ts";
import { defineCommand } from "./command.ts";
import { setFields } from "./fields.ts";

/** Adds a section to a song's form; at the end unless `index` says where. */
export const addSection = defineCommand({
  name: "addSection",
  schema: v.object({
    song: id,
    name,
    bars,
    repeats: v.optional(repeats),
    index: v.optional(v.pipe(v.number(), v.integer(), v.minValue(0))),
    learnAgain: v.optional(v.boolean(), false),
  }),
  check: (board, { song }) => songExists(board, song),
  write: (set, { song, name, bars, repeats, index, learnAgain }, { now, newId }, board) => {
    const sections = board.songs.get(song)?.sections ?? [];
    const plan = orderAt(sections, index ?? sections.length);
    setFields(set, "sections", [song, newId()], { name, bars, repeats, order: plan.order, deleted: false });
    for (const [moved, order] of plan.rekeyed) set("sections", `${song}/${moved}/order`, order);
    if (learnAgain) set("songs", `${song}/formSince`, now);
  },
});
