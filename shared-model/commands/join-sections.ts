import * as v from "valibot";
import { movedWhere } from "../board/move-places.ts";
import { textureKey } from "../board/texture.ts";
import { id } from "../document/schema.ts";
import { bodyOf } from "./card-body.ts";
import { sectionExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";
import { asJson } from "./edit-bars.ts";
import { joinOutcome } from "./join-outcome.ts";

/** Joins a section with the one that follows; the first keeps its name, metre, tempo and key. */
export const joinSections = defineCommand({
  name: "joinSections",
  schema: v.object({ song: id, section: id }),
  check: (board, { song, section }) => {
    const file = board.songs.get(song);
    const gone = sectionExists(file, section);
    if (gone !== null || file === undefined) return gone;
    const outcome = joinOutcome(file, section);
    if (outcome === null) return refuse("invalid", "Nothing follows this section.");
    return outcome.refusal === null ? null : refuse("invalid", outcome.refusal);
  },
  write: (set, { song, section }, _context, board) => {
    const file = board.songs.get(song);
    const outcome = file === undefined ? null : joinOutcome(file, section);
    if (file === undefined || outcome === null) return;
    const { first, next, keyGoesTo, cells } = outcome;
    set("sections", `${song}/${section}/bars`, first.bars + next.bars);
    set("sections", `${song}/${next.id}/deleted`, true);
    if (keyGoesTo !== null) set("sections", `${song}/${keyGoesTo.section}/key`, keyGoesTo.key);
    for (const card of file.cards) {
      const where = movedWhere({ of: "join", section, bars: first.bars, next: next.id }, card.where);
      if (where !== card.where) set("cards", `${card.id}/body`, bodyOf({ ...card, where }));
    }
    for (const { chair, source, changes } of cells)
      set("textures", `${song}/${textureKey(section, chair, source)}`, asJson({ changes }));
  },
});
