import * as v from "valibot";
import { SIDE_NAMES } from "../board/card.ts";
import { readSide, sideFault } from "../board/sides/detail-sides.ts";
import type { Json } from "../document/board-document.ts";
import { id } from "../document/schema.ts";
import { cardExists, firstOf } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";

/**
 * Writes one side of a detail, or takes it off (null): tone, harmony, dynamics, cymbals, ending, hand. With `learnAgain`
 * everybody starts afresh on the detail.
 */
export const describeSide = defineCommand({
  name: "describeSide",
  schema: v.object({
    card: id,
    side: v.picklist(SIDE_NAMES),
    value: v.nullable(v.record(v.string(), v.unknown())),
    learnAgain: v.optional(v.boolean(), false),
  }),
  check: (board, { card, side, value }) => {
    const fault = value === null ? null : sideFault(side, value);
    return firstOf(cardExists(board, card), fault === null ? null : refuse("invalid", fault));
  },
  write: (set, { card, side, value, learnAgain }, { now }) => {
    set("cards", `${card}/${side}`, readSide(side, value) as Json);
    if (learnAgain) set("cards", `${card}/since`, now);
  },
});
