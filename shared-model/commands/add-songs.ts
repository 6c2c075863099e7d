import * as v from "valibot";
import { orderAfterAll } from "../document/order-plan.ts";
import {
  bars,
  capo,
  energy,
  lengthSeconds,
  line,
  metre,
  name,
  note,
  repeats,
  stage,
  tempo,
} from "../document/schema.ts";
import { defineCommand } from "./command.ts";
import { setFields } from "./fields.ts";
import { chord, withChordKey } from "./first-chord.ts";

/**
 * Adds a pasted list of songs at once, each with what the list says of it; `stage` is for those of which it says none. The
 * caller has shown duplicates and asked what to do with them.
 */
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
          stage: v.optional(stage),
          metre: v.optional(metre),
          recordKey: v.optional(line),
          liftKey: v.optional(line),
          energy: v.optional(energy),
          style: v.optional(line),
          version: v.optional(line),
          tuning: v.optional(line),
          capo: v.optional(capo),
          countIn: v.optional(line),
          firstChord: v.optional(chord),
          ending: v.optional(line),
          notes: v.optional(note),
          form: v.optional(
            v.pipe(
              v.array(v.object({ name, bars, repeats: v.optional(repeats) })),
              v.maxLength(100, "write at most 100 sections"),
            ),
          ),
        }),
      ),
      v.minLength(1, "name at least one song"),
      v.maxLength(500, "add at most 500 songs at a time"),
    ),
  }),
  write: (set, { songs, stage }, { now, newId }, board) => {
    let last = { order: orderAfterAll([...board.songs.values()].map((file) => file.song)) };
    for (const { form = [], ...song } of songs) {
      const id = newId();
      setFields(set, "songs", [id], {
        stage,
        ...withChordKey(song, null),
        order: last.order,
        addedAt: now,
        deleted: false,
      });
      last = { order: orderAfterAll([last]) };
      let section: { order: string } | null = null;
      for (const part of form) {
        section = { order: orderAfterAll(section === null ? [] : [section]) };
        setFields(set, "sections", [id, newId()], { ...part, order: section.order, deleted: false });
      }
    }
  },
});
