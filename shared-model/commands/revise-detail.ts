import * as v from "valibot";
import type { Card } from "../board/card.ts";
import type { Json, SetKey } from "../document/board-document.ts";
import { byOrder } from "../document/order-key.ts";
import { orderAt } from "../document/order-plan.ts";
import { id } from "../document/schema.ts";
import { DETAIL_ENTRIES } from "./add-detail.ts";
import { bodyOf } from "./card-body.ts";
import { cardExists, chairExists, findCard, firstOf } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";

const rewrite = (set: SetKey, card: Card, changes: { readonly [name: string]: Json }): void =>
  set("cards", `${card.id}/body`, { ...bodyOf(card), ...changes });

/** Changes what a detail is about: chairs, weight, kind, place, ruling, cover. An absent entry stays. */
export const reviseDetail = defineCommand({
  name: "reviseDetail",
  schema: v.object({
    card: id,
    fields: v.partial(v.object({ ...DETAIL_ENTRIES, without: v.nullable(id) })),
    learnAgain: v.optional(v.boolean(), false),
  }),
  check: (board, { card, fields }) =>
    firstOf(cardExists(board, card), ...(fields.chairs ?? []).map((chair) => chairExists(board, chair))),
  write: (set, { card, fields, learnAgain }, { now }, board) => {
    const found = findCard(board, card);
    if (found === null) return;
    const { without, ...rest } = fields;
    const next: Card = {
      ...found.card,
      ...rest,
      ...(without === undefined || without === null ? {} : { without }),
    };
    const { without: dropped, ...bare } = next;
    rewrite(set, without === null ? bare : next, {});
    if (learnAgain) set("cards", `${card}/since`, now);
  },
});

/** Gives a spotted detail its chairs; from now on it counts. */
export const placeDetail = defineCommand({
  name: "placeDetail",
  schema: v.object({ card: id, chairs: v.pipe(v.array(id), v.minLength(1, "choose at least one chair")) }),
  check: (board, { card, chairs }) =>
    firstOf(
      cardExists(board, card),
      ...chairs.map((chair) => chairExists(board, chair)),
      (findCard(board, card)?.card.chairs.length ?? 0) > 0
        ? refuse("conflict", "Somebody has placed this detail meanwhile. Open it to change its chairs.")
        : null,
    ),
  write: (set, { card, chairs }, _context, board) => {
    const found = findCard(board, card);
    if (found !== null) rewrite(set, found.card, { chairs });
  },
});

/** Puts a detail at another place among those of its song (`index` among the others, by order key). */
export const moveDetail = defineCommand({
  name: "moveDetail",
  schema: v.object({ card: id, index: v.pipe(v.number(), v.integer(), v.minValue(0)) }),
  check: (board, { card }) => cardExists(board, card),
  write: (set, { card, index }, _context, board) => {
    const found = findCard(board, card);
    if (found === null) return;
    const others = found.file.cards.filter((c) => c.id !== card).sort(byOrder);
    const plan = orderAt(others, index);
    rewrite(set, found.card, { order: plan.order });
    for (const other of others) {
      const order = plan.rekeyed.get(other.id);
      if (order !== undefined) rewrite(set, other, { order });
    }
  },
});
