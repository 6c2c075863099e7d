import * as v from "valibot";
import { orderAfterAll } from "../document/order-plan.ts";
import { instrument, name, short } from "../document/schema.ts";
import { foldText } from "../lib/fold-text.ts";
import { defineCommand } from "./command.ts";
import { setFields } from "./fields.ts";

/** Most chairs added at a time. */
const CHAIRS_MAX = 64;

/** Adds the vacant chairs of a whole line-up at once, behind the others. A chair the band has already stays as it is. */
export const addLineUp = defineCommand({
  name: "addLineUp",
  schema: v.object({
    chairs: v.pipe(
      v.array(v.object({ name, short, instrument })),
      v.minLength(1, "name at least one chair"),
      v.maxLength(CHAIRS_MAX, `add at most ${CHAIRS_MAX} chairs at a time`),
    ),
  }),
  write: (set, { chairs }, { newId }, board) => {
    const taken = new Set(board.chairs.map((chair) => foldText(chair.name)));
    let last = { order: orderAfterAll(board.chairs) };
    for (const chair of chairs) {
      if (taken.has(foldText(chair.name))) continue;
      taken.add(foldText(chair.name));
      setFields(set, "chairs", [newId()], { ...chair, order: last.order, deleted: false });
      last = { order: orderAfterAll([last]) };
    }
  },
});
