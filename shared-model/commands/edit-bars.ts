import * as v from "valibot";
import type { Board, SongFile } from "../board/board.ts";
import { type FormEdit, losesPlace, movedChanges, movedWhere } from "../board/move-places.ts";
import type { Section } from "../board/song.ts";
import { type TextureChanges, textureKey } from "../board/texture.ts";
import type { Json, SetKey } from "../document/board-document.ts";
import { orderAt } from "../document/order-plan.ts";
import { BARS_MAX, bars, id, name } from "../document/schema.ts";
import { presenceAt } from "../music/texture-changes.ts";
import { bodyOf } from "./card-body.ts";
import { sectionExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";
import { setFields } from "./fields.ts";

const target = { song: id, section: id };

/** What is read-only is plain JSON all the same. */
const asJson = (value: { readonly changes: TextureChanges }): Json => value as unknown as Json;

const sectionOf = (board: Board, song: string, section: string): Section | undefined =>
  board.songs.get(song)?.sections.find((one) => one.id === section);

/** Details that move and those that lose their place, for whoever is about to edit. */
export const touchedBy = (
  { cards }: Pick<SongFile, "cards">,
  edit: FormEdit,
): { readonly moves: number; readonly loses: number } => {
  const loses = cards.filter(({ where }) => losesPlace(edit, where)).length;
  const moves = cards.filter(({ where }) => movedWhere(edit, where) !== where).length;
  return { moves: moves - loses, loses };
};

/** Moves details and what is said of who plays when along with the bars they stand at. */
const moveAlong = (set: SetKey, file: SongFile, edit: FormEdit): void => {
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

/** Cuts a section in two before one of its bars; the second half gets a name of its own. */
export const splitSection = defineCommand({
  name: "splitSection",
  schema: v.object({ ...target, at: bars, name }),
  check: (board, { song, section, at }) => {
    const gone = sectionExists(board.songs.get(song), section);
    const there = sectionOf(board, song, section)?.bars ?? 0;
    if (gone !== null) return gone;
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
    const half = {
      name,
      bars: there.bars - at + 1,
      repeats,
      metre,
      tempo,
      key: "",
      order,
      since,
      deleted: false,
    };
    setFields(set, "sections", [song, into], half);
    set("sections", `${song}/${section}/bars`, at - 1);
    // What is said of who plays there is said of both halves.
    for (const [key, changes] of file.textures) {
      const [of = "", chair = "", source = ""] = key.split("/");
      if (of !== section || changes.length === 0) continue;
      const passes = [...new Set(changes.map(({ pass }) => pass))];
      const starts = passes.map((pass) => ({
        bar: 1,
        pass,
        presence: presenceAt(changes, at, pass ?? 0) ?? "rest",
      }));
      const behind = changes
        .filter(({ bar }) => bar > at)
        .map((change) => ({ ...change, bar: change.bar - at + 1 }));
      const second = [...starts, ...behind].sort((a, b) => (a.pass ?? 0) - (b.pass ?? 0) || a.bar - b.bar);
      set("textures", `${song}/${into}/${chair}/${source}`, asJson({ changes: second }));
    }
    moveAlong(set, file, { of: "split", section, at, into });
  },
});

/** Joins a section with the one that follows; the first keeps its name. */
export const joinSections = defineCommand({
  name: "joinSections",
  schema: v.object(target),
  check: (board, { song, section }) => {
    const file = board.songs.get(song);
    const gone = sectionExists(file, section);
    if (gone !== null || file === undefined) return gone;
    const at = file.sections.findIndex((one) => one.id === section);
    const [first, next] = [file.sections[at], file.sections[at + 1]];
    if (first === undefined || next === undefined) return refuse("invalid", "Nothing follows this section.");
    if (first.repeats > 1 || next.repeats > 1)
      return refuse("invalid", "A section that is repeated cannot be joined. Write it out first.");
    return first.bars + next.bars > BARS_MAX
      ? refuse("invalid", `A section has at most ${BARS_MAX} bars.`)
      : null;
  },
  write: (set, { song, section }, _context, board) => {
    const file = board.songs.get(song);
    const at = file?.sections.findIndex((one) => one.id === section) ?? -1;
    const [first, next] = [file?.sections[at], file?.sections[at + 1]];
    if (file === undefined || first === undefined || next === undefined) return;
    set("sections", `${song}/${section}/bars`, first.bars + next.bars);
    set("sections", `${song}/${next.id}/deleted`, true);
    const edit: FormEdit = { of: "join", section, bars: first.bars, next: next.id };
    for (const card of file.cards) {
      const where = movedWhere(edit, card.where);
      if (where !== card.where) set("cards", `${card.id}/body`, bodyOf({ ...card, where }));
    }
    for (const [key, changes] of file.textures) {
      const [of = "", chair = "", source = ""] = key.split("/");
      if (of !== next.id || (source !== "recorded" && source !== "ours")) continue;
      const before = file.textures.get(textureKey(section, chair, source)) ?? [];
      // Nothing said of the first section must not become a rest.
      if (before.length === 0) continue;
      const behind = changes.map((change) => ({ ...change, bar: change.bar + first.bars }));
      const joined = [...before, ...behind].sort((a, b) => (a.pass ?? 0) - (b.pass ?? 0) || a.bar - b.bar);
      set("textures", `${song}/${section}/${chair}/${source}`, asJson({ changes: joined }));
    }
  },
});
