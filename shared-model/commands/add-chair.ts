import * as v from "valibot";
import { orderAfterAll } from "../document/order-plan.ts";
import { id, instrument, name, seat, short } from "../document/schema.ts";
import { chairExists, firstOf, nameIsFree, seatExists } from "./checks.ts";
import { defineCommand } from "./command.ts";
import { setFields } from "./fields.ts";
import { moveTo } from "./move-to.ts";

/** Adds a chair (a column of the board), behind the others. */
export const addChair = defineCommand({
  name: "addChair",
  schema: v.object({ name, short: v.optional(short), instrument, holder: v.optional(seat) }),
  check: (board, { name, holder }) =>
    firstOf(nameIsFree("chair", name, board.chairs), seatExists(board, holder ?? "")),
  write: (set, args, { newId }, board) =>
    setFields(set, "chairs", [newId()], { ...args, order: orderAfterAll(board.chairs), deleted: false }),
});

/** Renames a chair, or changes its instrument or its short name. */
export const reviseChair = defineCommand({
  name: "reviseChair",
  schema: v.object({
    chair: id,
    name: v.optional(name),
    short: v.optional(short),
    instrument: v.optional(instrument),
  }),
  check: (board, { chair, name }) =>
    firstOf(
      chairExists(board, chair),
      name === undefined ? null : nameIsFree("chair", name, board.chairs, chair),
    ),
  write: (set, { chair, ...fields }) => setFields(set, "chairs", [chair], fields),
});

/** Gives a chair to somebody, or leaves it vacant (empty holder). */
export const giveChair = defineCommand({
  name: "giveChair",
  schema: v.object({ chair: id, holder: seat }),
  check: (board, { chair, holder }) => firstOf(chairExists(board, chair), seatExists(board, holder)),
  write: (set, { chair, holder }) => set("chairs", `${chair}/holder`, holder),
});

/** Moves a column (`index` among the others). */
export const moveChair = defineCommand({
  name: "moveChair",
  schema: v.object({ chair: id, index: v.pipe(v.number(), v.integer(), v.minValue(0)) }),
  check: (board, { chair }) => chairExists(board, chair),
  write: (set, { chair, index }, _context, board) =>
    moveTo(board.chairs, chair, index, (moved, order) => set("chairs", `${moved}/order`, order)),
});
