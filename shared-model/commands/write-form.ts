import * as v from "valibot";
import { orderAfterAll } from "../document/order-plan.ts";
import { bars, id, name, repeats } from "../document/schema.ts";
import { songExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";
import { setFields } from "./fields.ts";

/** Writes the whole form of a song that has none yet. */
export const writeForm = defineCommand({
  name: "writeForm",
  schema: v.object({
    song: id,
    sections: v.pipe(
      v.array(v.object({ name, bars, repeats: v.optional(repeats) })),
      v.minLength(1, "name at least one section"),
      v.maxLength(100, "write at most 100 sections"),
    ),
  }),
  check: (board, { song }) =>
    songExists(board, song) ??
    ((board.songs.get(song)?.sections.length ?? 0) > 0
      ? refuse(
          "conflict",
          "Somebody has written a form for this song meanwhile. Open it and change its sections.",
        )
      : null),
  write: (set, { song, sections }, { newId }) => {
    let last: { order: string } | null = null;
    for (const section of sections) {
      last = { order: orderAfterAll(last === null ? [] : [last]) };
      setFields(set, "sections", [song, newId()], { ...section, order: last.order, deleted: false });
    }
  },
});
