import * as v from "valibot";
import type { Board } from "../board/board.ts";
import { isPartCardId, partCardId } from "../board/ids.ts";
import type { Status } from "../board/status.ts";
import { id, level } from "../document/schema.ts";
import { sinceOf } from "../readiness/since.ts";
import { findCard, firstOf, personExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";

/** The status that stands for one player on one card (part cards included); null = never marked. */
export const statusOf = (board: Board, card: string, member: string): Status | null => {
  for (const file of board.songs.values()) {
    const status = file.statuses.get(card)?.get(member);
    if (status !== undefined) return status;
  }
  return null;
};

const isOnBoard = (board: Board, card: string): boolean =>
  isPartCardId(card)
    ? [...board.songs.keys()].some((song) =>
        board.chairs.some((chair) => partCardId(song, chair.id) === card),
      )
    : findCard(board, card) !== null;

/** A phone whose clock is slow must not tap in vain on a detail that was to be learnt again: 0 for a part itself. */
const learntSince = (board: Board, card: string): number => {
  const found = findCard(board, card);
  return found === null ? 0 : sinceOf(found.file, found.card);
};

/**
 * Marks how far one player is with one detail or with a part itself. A member marks their own; the leader may
 * mark anyone's. Raising or re-confirming takes the claim's age back to now; lowering keeps the old anchor, so
 * that stepping back can never freshen a score.
 */
export const markDetail = defineCommand({
  name: "markDetail",
  schema: v.object({ card: id, member: id, level }),
  dep: ({ member, level }, author) =>
    member === author.member && level === 1
      ? null
      : refuse("forbidden", "A dep says “Got it” for themselves; the rest shows on the night."),
  check: (board, { card, member }, { author }) =>
    firstOf(
      isOnBoard(board, card) ? null : refuse("gone", "This detail is not on the board any more."),
      personExists(board, member),
      author.role === "leader" || author.member === member
        ? null
        : refuse("forbidden", "Only the player, or the leader, can mark this."),
    ),
  write: (set, { card, member, level }, { now, author }, board) => {
    const seen = statusOf(board, card, member);
    const from = seen?.level ?? 0;
    const fromAnchor = seen?.anchor ?? 0;
    set("statuses", `${card}/${member}/${author.writer}`, {
      level,
      from,
      anchor: level >= from ? Math.max(now, learntSince(board, card)) : fromAnchor,
      fromAnchor,
      at: Math.max(now, (seen?.at ?? 0) + 1),
    });
  },
});
