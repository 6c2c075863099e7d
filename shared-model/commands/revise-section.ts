import * as v from "valibot";
import { bars, id, line, name, ownMetre, repeats, tempo } from "../document/schema.ts";
import { firstOf, removedExists, sectionExists, songExists } from "./checks.ts";
import { defineCommand } from "./command.ts";
import { setFields } from "./fields.ts";
import { moveTo } from "./move-to.ts";

const target = { song: id, section: id };
const learnAgain = v.optional(v.boolean(), false);

/** Renames a section, or changes its bars, how often it comes, or its own metre, tempo and key. With `learnAgain`, the details inside it start afresh. */
export const reviseSection = defineCommand({
  name: "reviseSection",
  schema: v.object({
    ...target,
    name: v.optional(name),
    bars: v.optional(bars),
    repeats: v.optional(repeats),
    metre: v.optional(ownMetre),
    tempo: v.optional(v.nullable(tempo)),
    key: v.optional(line),
    learnAgain,
  }),
  check: (board, { song, section }) => sectionExists(board.songs.get(song), section),
  write: (set, { song, section, learnAgain, ...fields }, { now }) => {
    setFields(set, "sections", [song, section], fields);
    if (learnAgain) setFields(set, "sections", [song, section], { since: now });
  },
});

/** Puts a section at another place of the form (`index` among the others). */
export const moveSection = defineCommand({
  name: "moveSection",
  schema: v.object({ ...target, index: v.pipe(v.number(), v.integer(), v.minValue(0)), learnAgain }),
  check: (board, { song, section }) => sectionExists(board.songs.get(song), section),
  write: (set, { song, section, index, learnAgain }, { now }, board) => {
    moveTo(board.songs.get(song)?.sections ?? [], section, index, (moved, order) =>
      set("sections", `${song}/${moved}/order`, order),
    );
    if (learnAgain) set("songs", `${song}/formSince`, now);
  },
});

/** Takes a section out of the form. Details placed in it stay and say that their place is gone. */
export const removeSection = defineCommand({
  name: "removeSection",
  schema: v.object({ ...target, learnAgain }),
  check: (board, { song, section }) => sectionExists(board.songs.get(song), section),
  write: (set, { song, section, learnAgain }, { now }) => {
    set("sections", `${song}/${section}/deleted`, true);
    if (learnAgain) set("songs", `${song}/formSince`, now);
  },
});

/** Brings a section back into the form, where it stood. */
export const restoreSection = defineCommand({
  name: "restoreSection",
  schema: v.object(target),
  check: (board, { song, section }) =>
    firstOf(songExists(board, song), removedExists(board, `sections/${song}/${section}`)),
  write: (set, { song, section }) => set("sections", `${song}/${section}/deleted`, false),
});
