import * as v from "valibot";
import type { Grid } from "../board/grid.ts";
import { gridFault } from "../board/grid-reading.ts";
import { sideFault } from "../board/sides/detail-sides.ts";
import type { TextureChanges } from "../board/texture.ts";
import type { Json } from "../document/board-document.ts";
import { orderAfterAll } from "../document/order-plan.ts";
import { bars, id, kind, line, name, note, ownMetre, TEXTURE, tempo } from "../document/schema.ts";
import { GRID } from "../document/side-schema.ts";
import { SONG_ENTRIES } from "./add-song.ts";
import { chairExists, firstOf, nameIsFree } from "./checks.ts";
import { defineCommand, type Refusal, refuse } from "./command.ts";
import { storedGrid } from "./describe-grid.ts";
import { setFields } from "./fields.ts";
import { inOrder } from "./paint-texture.ts";
import { writeWording } from "./reword-detail.ts";

/** Place of a section in the form that comes with it, from 0. */
const place = v.pipe(v.number(), v.integer(), v.minValue(0), v.maxValue(99));

const faultOf = (grid: Grid | null): Refusal | null => {
  const sentence = grid === null ? null : gridFault(grid);
  return sentence === null ? null : refuse("invalid", sentence);
};

/** The side of a detail that says what keeps the time; null where nothing is said. */
const cymbalPlan = (
  cymbals: readonly { readonly section: number; readonly word: string }[],
  sectionAt: (place: number) => string,
): { readonly plan: { readonly [section: string]: string } } | null =>
  cymbals.length === 0
    ? null
    : { plan: Object.fromEntries(cymbals.map(({ section, word }) => [sectionAt(section), word])) };

/**
 * Adds a song with what was found in a file about it: its form, who plays when on the recording, details with their bars.
 * All of it is one change. Sections are named by their place in the form.
 */
export const importSong = defineCommand({
  name: "importSong",
  schema: v.object({
    song: v.object({ ...v.partial(v.object(SONG_ENTRIES)).entries, title: name }),
    sections: v.pipe(
      v.array(
        v.object({
          name,
          bars,
          // Where it has its own.
          metre: v.optional(ownMetre),
          tempo: v.optional(v.nullable(tempo)),
          key: v.optional(line),
        }),
      ),
      v.maxLength(100, "write at most 100 sections"),
    ),
    textures: v.pipe(
      v.array(v.object({ section: place, chair: id, ...TEXTURE.entries })),
      v.maxLength(2000, "say of at most 2000 sections and chairs who plays when"),
    ),
    details: v.pipe(
      v.array(
        v.object({
          text: v.pipe(note, v.trim(), v.minLength(1, "say in a few words what to do")),
          chairs: v.pipe(v.array(id), v.maxLength(64)),
          kind,
          section: v.nullable(place),
          grid: v.nullable(GRID),
          /** What keeps the time, section by section. */
          cymbals: v.optional(
            v.pipe(
              v.array(v.object({ section: place, word: line })),
              v.maxLength(100, "name at most 100 sections"),
            ),
            [],
          ),
        }),
      ),
      v.maxLength(100, "take at most 100 details"),
    ),
  }),
  check: (board, { song, sections, textures, details }) => {
    const titles = [...board.songs.values()].map((file) => ({ id: file.song.id, name: file.song.title }));
    const places = [...textures, ...details.flatMap(({ cymbals }) => cymbals), ...details].map(
      ({ section }) => section ?? 0,
    );
    const planned = details.map(({ cymbals }) => cymbalPlan(cymbals, (at) => String(at)));
    const beyond = textures.some(({ section, changes }) =>
      changes.some(({ bar }) => bar > (sections[section]?.bars ?? 0)),
    );
    const fault = planned
      .map((plan) => (plan === null ? null : sideFault("cymbals", plan)))
      .find((sentence) => sentence !== null);
    return firstOf(
      fault === undefined ? null : refuse("invalid", fault),
      nameIsFree("song", song.title, titles),
      ...textures.map(({ chair }) => chairExists(board, chair)),
      ...details.flatMap(({ chairs, grid }) => [
        ...[...chairs, ...(grid?.rows ?? []).map(({ chair }) => chair)].map((chair) =>
          chairExists(board, chair),
        ),
        faultOf(grid),
      ]),
      beyond || (sections.length > 0 && places.some((at) => at >= sections.length))
        ? refuse("invalid", "Something belongs to a bar that is not in the form. Choose the file again.")
        : null,
    );
  },
  write: (set, { song, sections, textures, details }, context, board) => {
    const { now, newId, author } = context;
    const self = newId();
    const order = orderAfterAll([...board.songs.values()].map((file) => file.song));
    setFields(set, "songs", [self], { ...song, order, addedAt: now, deleted: false });
    let last: { order: string }[] = [];
    const formed = sections.map((section) => {
      const made = { id: newId(), order: orderAfterAll(last) };
      last = [made];
      setFields(set, "sections", [self, made.id], { ...section, order: made.order, deleted: false });
      return made.id;
    });
    for (const { section, chair, changes } of textures)
      set("textures", `${self}/${formed[section]}/${chair}/recorded`, {
        changes: inOrder(changes as TextureChanges) as unknown as Json,
      });
    last = [];
    for (const { text, chairs, kind, section, grid, cymbals } of details) {
      const card = newId();
      const from = section === null ? undefined : formed[section];
      last = [{ order: orderAfterAll(last) }];
      set("cards", `${card}/body`, {
        song: self,
        chairs,
        weight: "lift",
        kind,
        where: from === undefined ? {} : { from: { section: from } },
        source: "as recorded",
        order: last[0]?.order ?? "",
        createdBy: author.member ?? "",
        createdAt: now,
      });
      set("cards", `${card}/deleted`, false);
      // What is on the recording is what we play until somebody says otherwise.
      if (grid !== null)
        for (const side of ["grid", "recordedGrid"]) set("cards", `${card}/${side}`, storedGrid(grid));
      const plan = cymbalPlan(cymbals, (at) => formed[at] ?? "");
      if (plan !== null) set("cards", `${card}/cymbals`, plan);
      writeWording(set, card, "text", { text, was: "", base: {}, floor: 0 }, context);
    }
  },
});
