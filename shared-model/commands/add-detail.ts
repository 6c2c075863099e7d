import * as v from "valibot";
import { orderAfterAll } from "../document/order-plan.ts";
import { id, kind, note, source, weight, where } from "../document/schema.ts";
import { chairExists, firstOf, songExists } from "./checks.ts";
import { defineCommand } from "./command.ts";
import { writeWording } from "./reword-detail.ts";

/** What belongs together in a detail. */
export const DETAIL_ENTRIES = {
  chairs: v.pipe(v.array(id), v.maxLength(64)),
  weight,
  kind,
  where,
  source,
  /** A cover: applies only while this chair has nobody on it. */
  without: v.optional(id),
};

/** Adds a detail to a song. Without chairs it is only spotted: it waits to be placed and counts for nothing. */
export const addDetail = defineCommand({
  name: "addDetail",
  schema: v.object({
    song: id,
    text: v.pipe(note, v.trim(), v.minLength(1, "say in a few words what to do")),
    right: v.optional(note, ""),
    chairs: v.optional(DETAIL_ENTRIES.chairs, []),
    weight: v.optional(weight, "lift"),
    kind: v.optional(kind, "general"),
    where: v.optional(where, {}),
    source: v.optional(source, "as recorded"),
    without: DETAIL_ENTRIES.without,
  }),
  check: (board, { song, chairs }) =>
    firstOf(songExists(board, song), ...chairs.map((chair) => chairExists(board, chair))),
  write: (set, { text, right, ...body }, context, board) => {
    const card = context.newId();
    const order = orderAfterAll(board.songs.get(body.song)?.cards ?? []);
    const createdBy = context.author.member ?? "";
    const { without, ...rest } = body;
    set("cards", `${card}/body`, {
      ...rest,
      order,
      createdBy,
      createdAt: context.now,
      ...(without === undefined ? {} : { without }),
    });
    set("cards", `${card}/deleted`, false);
    writeWording(set, card, "text", { text, was: "", base: {}, floor: 0 }, context);
    if (right !== "") writeWording(set, card, "right", { text: right, was: "", base: {}, floor: 0 }, context);
  },
});
