import * as v from "valibot";
import type { Card } from "../board/card.ts";
import type { SetKey } from "../document/board-document.ts";
import { CARD_TEXTS, type CardText } from "../document/read/read-card.ts";
import { id, note } from "../document/schema.ts";
import { cardExists, findCard, firstOf } from "./checks.ts";
import { type CommandContext, defineCommand, type RunContext, refuse } from "./command.ts";

/** A wording, what it replaces, and the versions its writer had seen (writer → at). */
export interface Wording {
  readonly text: string;
  readonly was: string;
  readonly base: { readonly [writer: string]: number };
  /** Highest time seen on this text; the new mark comes after it whatever the device clock says. */
  readonly floor: number;
}

export const writeWording = (
  set: SetKey,
  card: string,
  field: CardText,
  { text, was, base, floor }: Wording,
  { now, author }: CommandContext,
): void =>
  set("texts", `${card}/${field}/${author.writer}`, {
    text,
    was,
    base,
    by: author.member ?? "",
    at: Math.max(now, floor + 1),
  });

const baseOf = (mark: unknown): Wording["base"] =>
  typeof mark === "object" && mark !== null ? (Reflect.get(mark, "base") ?? {}) : {};

/**
 * The wording that follows what stands on a card: it covers every version shown, so a disagreement is settled, and
 * what this device had covered before, because it writes over the mark that said so.
 */
const wordingAfter = (card: Card, field: CardText, text: string, { stored, author }: RunContext): Wording => {
  const seen = card.versions[field];
  return {
    text,
    was: card[field],
    base: {
      ...baseOf(stored("texts", `${card.id}/${field}/${author.writer}`)),
      ...Object.fromEntries(seen.map(({ writer, at }) => [writer, at])),
    },
    floor: Math.max(0, ...seen.map(({ at }) => at)),
  };
};

/**
 * Rewords a detail, or settles two versions of it. With `learnAgain` everybody starts afresh on it;
 * without, it is the same detail better said.
 */
export const rewordDetail = defineCommand({
  name: "rewordDetail",
  schema: v.object({
    card: id,
    field: v.picklist(CARD_TEXTS),
    text: note,
    learnAgain: v.optional(v.boolean(), false),
  }),
  check: (board, { card, field, text }) =>
    firstOf(
      cardExists(board, card),
      field === "text" && text.trim() === ""
        ? refuse("invalid", "Say in a few words what to do, or take the detail off the board.")
        : null,
    ),
  write: (set, { card, field, text, learnAgain }, context, board) => {
    const found = findCard(board, card);
    if (found === null) return;
    const settled = found.card.versions[field].length < 2 && found.card[field] === text.trim();
    if (!settled)
      writeWording(set, card, field, wordingAfter(found.card, field, text.trim(), context), context);
    if (learnAgain) set("cards", `${card}/since`, context.now);
  },
});
