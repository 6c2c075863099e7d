import * as v from "valibot";
import type { Board } from "../board/board.ts";
import { orderAfterAll } from "../document/order-plan.ts";
import { id, line, tempo } from "../document/schema.ts";
import { parseKey } from "../music/key.ts";
import { firstOf, gigExists, songExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";
import { setFields } from "./fields.ts";
import { moveTo } from "./move-to.ts";

const target = { gig: id, song: id };

const songsOf = (board: Board, gig: string) => board.gigs.find((g) => g.id === gig)?.songs ?? [];

/** Calls songs for a gig, behind those already called. */
export const callSongs = defineCommand({
  name: "callSongs",
  schema: v.object({ gig: id, songs: v.array(id) }),
  check: (board, { gig, songs }) =>
    firstOf(gigExists(board, gig), ...songs.map((song) => songExists(board, song))),
  write: (set, { gig, songs }, _context, board) => {
    let last = { order: orderAfterAll(songsOf(board, gig)) };
    for (const song of songs) {
      if (songsOf(board, gig).some((entry) => entry.song === song)) continue;
      setFields(set, "setSongs", [gig, song], { called: true, order: last.order });
      last = { order: orderAfterAll([last]) };
    }
  },
});

/** Drops a song from a gig, and with it the key that was asked for. */
export const dropSong = defineCommand({
  name: "dropSong",
  schema: v.object(target),
  check: (board, { gig }) => gigExists(board, gig),
  write: (set, { gig, song }, _context, board) => {
    set("setSongs", `${gig}/${song}/called`, false);
    const asked = board.gigs.find((one) => one.id === gig)?.keysAsked.has(song) ?? false;
    if (asked) set("setSongs", `${gig}/${song}/keyAsked`, null);
  },
});

/** Moves a song within a gig's order (`index` among the others). */
export const moveInGig = defineCommand({
  name: "moveInGig",
  schema: v.object({ ...target, index: v.pipe(v.number(), v.integer(), v.minValue(0)) }),
  check: (board, { gig, song }) => firstOf(gigExists(board, gig), songExists(board, song)),
  write: (set, { gig, song, index }, _context, board) => {
    const entries = songsOf(board, gig).map((entry) => ({ id: entry.song, order: entry.order }));
    moveTo(entries, song, index, (moved, order) => set("setSongs", `${gig}/${moved}/order`, order));
  },
});

/** Key, tempo and tuning of one song for one gig; null goes back to the song's own. A key answers whoever asked for one. */
export const tuneForGig = defineCommand({
  name: "tuneForGig",
  schema: v.object({
    ...target,
    key: v.optional(v.nullable(line)),
    tempo: v.optional(v.nullable(tempo)),
    tuning: v.optional(v.nullable(line)),
  }),
  check: (board, { gig, song }) => firstOf(gigExists(board, gig), songExists(board, song)),
  write: (set, { gig, song, ...fields }, _context, board) => {
    setFields(set, "setSongs", [gig, song], fields);
    const before = board.gigs.find((one) => one.id === gig);
    const asked = before?.keysAsked.get(song)?.key;
    const stood = before?.songs.find((entry) => entry.song === song)?.key ?? null;
    // A form that sends the key along as it stood has answered nobody.
    const answers = fields.key !== undefined && (fields.key !== stood || fields.key === asked);
    if (asked !== undefined && answers) set("setSongs", `${gig}/${song}/keyAsked`, null);
  },
});

/** Asks the leader for another key of one song on one night; an empty key takes that back, or leaves the key as it is. */
export const askForKey = defineCommand({
  name: "askForKey",
  schema: v.object({ ...target, key: line }),
  check: (board, { gig, song, key }) =>
    firstOf(
      gigExists(board, gig),
      songExists(board, song),
      songsOf(board, gig).some((entry) => entry.song === song)
        ? null
        : refuse("gone", "This song is not called for that gig any more."),
      key === "" || parseKey(key).ok
        ? null
        : refuse("invalid", "This is no key. Write one such as Em or Bb."),
    ),
  write: (set, { gig, song, key }, { author }) =>
    set("setSongs", `${gig}/${song}/keyAsked`, key === "" ? null : { key, by: author.member ?? "" }),
});
