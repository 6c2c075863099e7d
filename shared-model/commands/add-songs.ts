import * as v from "valibot";
import { orderAfterAll } from "../document/order-plan.ts";
import { lengthSeconds, line, name, stage, tempo } from "../document/schema.ts";
import { defineCommand } from "./command.ts";
import { setFields } from "./fields.ts";

/** Adds a pasted list of songs at once. The caller has shown duplicates and asked what to do with them. */
export const addSongs = defineCommand({
  name: "addSongs",
  schema: v.object({
    stage,
    songs: v.pipe(
      v.array(
        v.object({
          title: name,
          key: v.optional(line),
          tempo: v.optional(v.nullable(tempo)),
          length: v.optional(v.nullable(lengthSeconds)),
        }),
      ),
      v.minLength(1, "name at least one song"),
      v.maxLength(500, "add at most 500 songs at a time"),
    ),
  }),
  write: (set, { songs, stage }, { now, newId }, board) => {
    let last = { order: orderAfterAll([...board.songs.values()].map((file) => file.song)) };
    for (const song of songs) {
      setFields(set, "songs", [newId()], { ...song, stage, order: last.order, addedAt: now, deleted: false });
      last = { order: orderAfterAll([last]) };
    }
  },
});
