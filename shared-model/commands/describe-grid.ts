import * as v from "valibot";
import type { Grid, Shape } from "../board/grid.ts";
import { gridFault } from "../board/grid-reading.ts";
import type { Json } from "../document/board-document.ts";
import { id } from "../document/schema.ts";
import { GRID, SHAPE } from "../document/side-schema.ts";
import { tunedShapeFault } from "../music/fretboard.ts";
import { cardExists, chairExists, firstOf } from "./checks.ts";
import { defineCommand, type Refusal, refuse } from "./command.ts";

const invalidIf = (fault: string | null): Refusal | null =>
  fault === null ? null : refuse("invalid", fault);
const learnAgain = v.optional(v.boolean(), false);

/** An absent voice is not stored: the document holds no `undefined`. */
export const storedGrid = (grid: Grid | null): Json =>
  grid === null
    ? null
    : {
        steps: grid.steps,
        perBeat: grid.perBeat,
        rows: grid.rows.map(
          ({ chair, voice, hits }): Json => (voice === undefined ? { chair, hits } : { chair, voice, hits }),
        ),
      };

/**
 * Writes the bar a detail is about, as we play it or as it is on the recording, or takes it off (null). Rows may be of any chair, so that a bass detail shows the kick
 * it answers. With `learnAgain` everybody starts afresh on the detail.
 */
export const describeGrid = defineCommand({
  name: "describeGrid",
  schema: v.object({
    card: id,
    grid: v.nullable(GRID),
    of: v.optional(v.picklist(["ours", "recorded"]), "ours"),
    learnAgain,
  }),
  check: (board, { card, grid }) =>
    firstOf(
      cardExists(board, card),
      ...(grid?.rows ?? []).map(({ chair }) => chairExists(board, chair)),
      invalidIf(grid === null ? null : gridFault(grid)),
    ),
  write: (set, { card, grid, of, learnAgain }, { now }) => {
    set("cards", `${card}/${of === "ours" ? "grid" : "recordedGrid"}`, storedGrid(grid));
    if (learnAgain) set("cards", `${card}/since`, now);
  },
});

const storedShape = ({ tuning, ...shape }: Shape): Json => ({
  frets: [...shape.frets],
  fingers: [...shape.fingers],
  capo: shape.capo,
  ...(tuning === undefined ? {} : { tuning }),
});

/** Writes how a detail is fretted, or takes that off (null). With `learnAgain` everybody starts afresh on the detail. */
export const describeShape = defineCommand({
  name: "describeShape",
  schema: v.object({ card: id, shape: v.nullable(SHAPE), learnAgain }),
  check: (board, { card, shape }) =>
    firstOf(cardExists(board, card), invalidIf(shape === null ? null : tunedShapeFault(shape))),
  write: (set, { card, shape, learnAgain }, { now }) => {
    set("cards", `${card}/shape`, shape === null ? null : storedShape(shape));
    if (learnAgain) set("cards", `${card}/since`, now);
  },
});
