import * as v from "valibot";
import type { Board } from "../board/board.ts";
import type { Take } from "../board/take.ts";
import { NONE } from "../document/root-maps.ts";
import { id } from "../document/schema.ts";
import { songExists } from "./checks.ts";
import { defineCommand, type Refusal, refuse } from "./command.ts";

/** One slip as it is flagged: nobody's (no chair), a chair's, or on one detail. */
export const slipEntry = v.object({
  chair: v.optional(v.nullable(id), null),
  card: v.optional(v.nullable(id), null),
  severity: v.picklist([0.5, 1, 2]),
});

/** A take is named by its song and its id on the board. */
const target = { song: id, take: v.string() };

const findTake = (board: Board, song: string, take: string): Take | null =>
  board.songs.get(song)?.takes.find((t) => t.id === take) ?? null;

const takeExists = (board: Board, song: string, take: string): Refusal | null =>
  songExists(board, song) ??
  (findTake(board, song, take) ? null : refuse("gone", "This take is not in the log any more."));

/** The key of a take's slot; the `~2` of a second take under one number is the reader's own mark. */
const slotOf = (take: Take): string => `${take.occasion}/${take.song}/${take.no}`;

const slipKey = (take: Take, chair: string | null, card: string | null, writer: string): string =>
  `${slotOf(take)}/${chair ?? NONE}/${card ?? NONE}/${writer}`;

/** Flags a slip in a logged take; severity 0 withdraws what this device flagged before. */
export const flagSlip = defineCommand({
  name: "flagSlip",
  schema: v.object({ ...target, ...slipEntry.entries, severity: v.picklist([0, 0.5, 1, 2]) }),
  check: (board, { song, take }) => takeExists(board, song, take),
  write: (set, { song, take: takeId, chair, card, severity }, { now, author }, board) => {
    const take = findTake(board, song, takeId);
    if (take === null) return;
    // A flag from another device falls to the take nearest in time, so its time must lie with this take.
    const at = take.writers.includes(author.writer) ? now : take.at;
    set("slips", slipKey(take, chair, card, author.writer), { severity, at });
  },
});

/**
 * Takes one's own entry back out of the log, with the slips one flagged in it. What other devices logged of the same
 * take stays.
 */
export const withdrawTake = defineCommand({
  name: "withdrawTake",
  schema: v.object(target),
  check: (board, { song, take }, { author }) =>
    takeExists(board, song, take) ??
    (findTake(board, song, take)?.writers.includes(author.writer)
      ? null
      : refuse("forbidden", "This take was logged on another device; only that device can take it back.")),
  write: (set, { song, take: takeId }, { author, stored }, board) => {
    const take = findTake(board, song, takeId);
    if (take === null) return;
    // Left behind, they would turn up again in whatever this device logs next under the same number.
    for (const { chair, card } of take.slips) {
      const key = slipKey(take, chair, card, author.writer);
      if (stored("slips", key) !== undefined) set("slips", key, { severity: 0, at: take.at });
    }
    set("takes", `${slotOf(take)}/${author.writer}`, {
      kind: take.kind,
      at: take.at,
      seats: take.seats.map((seat) => ({ ...seat })),
      scope: JSON.parse(JSON.stringify(take.scope)),
      feel: take.feel,
      tempoStart: take.tempoStart,
      tempoEnd: take.tempoEnd,
      key: take.key,
      by: author.member ?? "",
      withdrawn: true,
    });
  },
});
