import * as v from "valibot";
import { TEXTURE_SOURCES, type TextureChange, type TextureChanges } from "../board/texture.ts";
import type { Json } from "../document/board-document.ts";
import { id, TEXTURE } from "../document/schema.ts";
import { chairExists, firstOf, sectionExists, songExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";

/** A form of 100 sections for a band of 20. */
const CELLS_MAX = 2000;

const placeOf = ({ pass, bar }: TextureChange): number => (pass ?? 0) * 1000 + bar;

/** Every pass first, then by pass and bar; of two that begin at one place the last counts. */
export const inOrder = (changes: TextureChanges): TextureChanges =>
  [...new Map(changes.map((change) => [placeOf(change), change])).values()].sort(
    (a, b) => placeOf(a) - placeOf(b),
  );

/** Says how chairs play in sections of a song: all cells of one stroke at once. No changes = it is not said any more. */
export const paintTexture = defineCommand({
  name: "paintTexture",
  schema: v.object({
    song: id,
    source: v.picklist(TEXTURE_SOURCES),
    cells: v.pipe(
      v.array(v.object({ section: id, chair: id, ...TEXTURE.entries })),
      v.minLength(1, "choose at least one section and chair"),
      v.maxLength(CELLS_MAX, `paint at most ${CELLS_MAX} cells at once`),
    ),
  }),
  check: (board, { song, cells }) => {
    const file = board.songs.get(song);
    return firstOf(
      songExists(board, song),
      ...cells.flatMap(({ section, chair, changes }) => {
        const bars = file?.sections.find((one) => one.id === section)?.bars ?? 0;
        const beyond = changes.find(({ bar }) => bar > bars);
        return [
          sectionExists(file, section),
          chairExists(board, chair),
          beyond === undefined
            ? null
            : refuse(
                "invalid",
                `The section has ${bars} bars and no bar ${beyond.bar}. Choose an earlier one.`,
              ),
        ];
      }),
    );
  },
  write: (set, { song, source, cells }) => {
    for (const { section, chair, changes } of cells)
      set("textures", `${song}/${section}/${chair}/${source}`, {
        changes: inOrder(changes) as unknown as Json,
      });
  },
});

/** Stops asking something about who plays when in this song, or asks it again. */
export const dismissHint = defineCommand({
  name: "dismissHint",
  schema: v.object({ song: id, hint: id, dismissed: v.boolean() }),
  check: (board, { song }) => songExists(board, song),
  write: (set, { song, hint, dismissed }) => set("hints", `${song}/${hint}`, dismissed),
});
