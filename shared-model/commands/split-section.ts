import * as v from "valibot";
import { orderAt } from "../document/order-plan.ts";
import { bars, id, name } from "../document/schema.ts";
import { changesFrom } from "../music/texture-changes.ts";
import { sectionExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";
import { asJson, moveAlong, sectionOf } from "./edit-bars.ts";
import { setFields } from "./fields.ts";

/** Cuts a section in two before one of its bars; the second half gets a name of its own. */
export const splitSection = defineCommand({
  name: "splitSection",
  schema: v.object({ song: id, section: id, at: bars, name }),
  check: (board, { song, section, at }) => {
    const gone = sectionExists(board.songs.get(song), section);
    const there = sectionOf(board, song, section)?.bars ?? 0;
    if (gone !== null) return gone;
    const { name: called, repeats = 1 } = sectionOf(board, song, section) ?? {};
    if (repeats > 1)
      return refuse(
        "invalid",
        `${called} comes ${repeats} times in a row and cannot be cut. Write it out first.`,
      );
    return at < 2 || at > there
      ? refuse("invalid", `Cut before a bar from 2 to ${there}: both halves need a bar.`)
      : null;
  },
  write: (set, { song, section, at, name }, { newId }, board) => {
    const file = board.songs.get(song);
    const there = sectionOf(board, song, section);
    if (file === undefined || there === undefined) return;
    const into = newId();
    const index = file.sections.indexOf(there) + 1;
    const { order, rekeyed } = orderAt(file.sections, index);
    for (const [moved, key] of rekeyed) set("sections", `${song}/${moved}/order`, key);
    const { repeats, metre, tempo, since } = there;
    const left = there.bars - at + 1;
    const half = { name, bars: left, repeats, metre, tempo, key: "", order, since, deleted: false };
    setFields(set, "sections", [song, into], half);
    set("sections", `${song}/${section}/bars`, at - 1);
    // What is said of who plays there is said of both halves.
    for (const [key, changes] of file.textures) {
      const [of = "", chair = "", source = ""] = key.split("/");
      if (of !== section || changes.length === 0) continue;
      const second = changesFrom(changes, at, left);
      set("textures", `${song}/${into}/${chair}/${source}`, asJson({ changes: second }));
    }
    moveAlong(set, file, { of: "split", section, at, into });
  },
});
