import * as v from "valibot";
import type { Board, SongFile } from "../board/board.ts";
import { type FormEdit, movedChanges, movedWhere } from "../board/move-places.ts";
import type { Section } from "../board/song.ts";
import type { TextureChanges } from "../board/texture.ts";
import type { Json, SetKey } from "../document/board-document.ts";
import { BARS_MAX, bars, id } from "../document/schema.ts";
import { bodyOf } from "./card-body.ts";
import { sectionExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";

const target = { song: id, section: id };

/** What is read-only is plain JSON all the same. */
export const asJson = (value: { readonly changes: TextureChanges }): Json => value as unknown as Json;

export const sectionOf = (board: Board, song: string, section: string): Section | undefined =>
  board.songs.get(song)?.sections.find((one) => one.id === section);

/** Moves details and what is said of who plays when along with the bars they stand at. */
export const moveAlong = (set: SetKey, file: SongFile, edit: FormEdit): void => {
  for (const card of file.cards) {
    const where = movedWhere(edit, card.where);
    if (where !== card.where) set("cards", `${card.id}/body`, bodyOf({ ...card, where }));
  }
  for (const [key, changes] of file.textures) {
    const [section = "", chair = "", source = ""] = key.split("/");
    const moved = movedChanges(edit, section, changes);
    if (JSON.stringify(moved) !== JSON.stringify(changes))
      set("textures", `${file.song.id}/${section}/${chair}/${source}`, asJson({ changes: moved }));
  }
};

/** Puts bars into a section, before one of its bars or behind the last; what stands behind moves along. */
export const insertBars = defineCommand({
  name: "insertBars",
  schema: v.object({ ...target, at: bars, count: bars }),
  check: (board, { song, section, at, count }) => {
    const gone = sectionExists(board.songs.get(song), section);
    const there = sectionOf(board, song, section)?.bars ?? 0;
    if (gone !== null) return gone;
    if (at > there + 1) return refuse("invalid", `The section has ${there} bars.`);
    return there + count > BARS_MAX ? refuse("invalid", `A section has at most ${BARS_MAX} bars.`) : null;
  },
  write: (set, { song, section, at, count }, _context, board) => {
    const file = board.songs.get(song);
    const there = sectionOf(board, song, section);
    if (file === undefined || there === undefined) return;
    set("sections", `${song}/${section}/bars`, there.bars + count);
    moveAlong(set, file, { of: "insert", section, at, count });
  },
});

/** Takes bars out of a section. A detail of a bar that is gone keeps its words and stands for the section. */
export const removeBars = defineCommand({
  name: "removeBars",
  schema: v.object({ ...target, at: bars, count: bars }),
  check: (board, { song, section, at, count }) => {
    const gone = sectionExists(board.songs.get(song), section);
    const there = sectionOf(board, song, section)?.bars ?? 0;
    if (gone !== null) return gone;
    if (at + count - 1 > there) return refuse("invalid", `The section has ${there} bars.`);
    return count === there
      ? refuse("invalid", "That is the whole section. Take the section out of the form instead.")
      : null;
  },
  write: (set, { song, section, at, count }, _context, board) => {
    const file = board.songs.get(song);
    const there = sectionOf(board, song, section);
    if (file === undefined || there === undefined) return;
    set("sections", `${song}/${section}/bars`, there.bars - count);
    moveAlong(set, file, { of: "remove", section, at, count });
  },
});
