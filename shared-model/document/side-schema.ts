/** What stands beside a detail's words: validator → type → default, like every record of `schema.ts`. */
import * as v from "valibot";
import type { StoredSide } from "../board/card.ts";
import {
  faultInGrid,
  faultInShape,
  GRID_VOICES,
  type Grid,
  type Shape,
  STRINGS_MOST,
} from "../board/grid.ts";
import { type Fields, field, id, line, since } from "./schema.ts";

const ROWS_MAX = 64;

/** The entries of a grid and of a shape, before `faultInGrid` and `faultInShape` say whether they make one. */
export const GRID = v.object({
  steps: v.number(),
  perBeat: v.number(),
  rows: v.pipe(
    v.array(v.object({ chair: id, voice: v.optional(v.picklist(GRID_VOICES)), hits: line })),
    v.maxLength(ROWS_MAX),
  ),
});
const onString = v.pipe(
  v.array(v.nullable(v.number())),
  v.maxLength(STRINGS_MOST, `choose at most ${STRINGS_MOST} strings`),
);
export const SHAPE = v.object({
  frets: onString,
  fingers: onString,
  capo: v.number(),
  tuning: v.optional(line),
});

/** Any record: what is in it is read, entry by entry, where it is shown. */
const side = field<StoredSide | null>(v.nullable(v.record(v.string(), v.unknown())), null);

const grid = field<Grid | null>(
  v.nullable(
    v.pipe(
      GRID,
      v.check((grid) => faultInGrid(grid) === null, "this is no grid"),
    ),
  ),
  null,
);

/** What stands beside a card's body, in keys of its own. */
export const CARD_SIDES = {
  since,
  grid,
  recordedGrid: grid,
  shape: field<Shape | null>(
    v.nullable(
      v.pipe(
        SHAPE,
        v.check((shape) => faultInShape(shape) === null, "this is no shape"),
      ),
    ),
    null,
  ),
  tone: side,
  harmony: side,
  dynamics: side,
  cymbals: side,
  ending: side,
  hand: side,
} satisfies Fields;
