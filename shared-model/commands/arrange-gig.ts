import * as v from "valibot";
import { BLOCKS_OF_GIG_MAX } from "../board/band.ts";
import { orderAfterAll } from "../document/order-plan.ts";
import { gigPin, id, line } from "../document/schema.ts";
import { firstOf, gigExists, songExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";
import { setFields } from "./fields.ts";

const SONGS_MAX = 200;

/** Puts a whole running order in place: the songs of each block as given; called songs that are not among them are dropped. */
export const arrangeGig = defineCommand({
  name: "arrangeGig",
  schema: v.object({
    gig: id,
    blocks: v.pipe(v.array(v.pipe(v.array(id), v.maxLength(SONGS_MAX))), v.maxLength(BLOCKS_OF_GIG_MAX)),
  }),
  check: (board, { gig, blocks }) =>
    firstOf(
      gigExists(board, gig),
      ...blocks.flat().map((song) => songExists(board, song)),
      new Set(blocks.flat()).size < blocks.flat().length
        ? refuse("invalid", "A song can be played once in a running order.")
        : null,
    ),
  write: (set, { gig, blocks }, _context, board) => {
    const before = board.gigs.find((each) => each.id === gig)?.songs ?? [];
    const kept = new Set(blocks.flat());
    for (const { song } of before) if (!kept.has(song)) set("setSongs", `${gig}/${song}/called`, false);
    let last: { order: string } | null = null;
    blocks.forEach((songs, block) => {
      for (const song of songs) {
        last = { order: orderAfterAll(last === null ? [] : [last]) };
        setFields(set, "setSongs", [gig, song], { called: true, order: last.order, block });
      }
    });
  },
});

/** Writes down who asked the band for a song at a gig: the host, a guest. Empty takes it back. */
export const requestForGig = defineCommand({
  name: "requestForGig",
  schema: v.object({ gig: id, song: id, askedBy: line }),
  check: (board, { gig, song }) => firstOf(gigExists(board, gig), songExists(board, song)),
  write: (set, { gig, song, askedBy }) => set("setSongs", `${gig}/${song}/askedBy`, askedBy.trim()),
});

/** Asks something of a song for one gig, or nothing any more (empty). What is not to be played is dropped as well. */
export const pinInGig = defineCommand({
  name: "pinInGig",
  schema: v.object({ gig: id, song: id, pin: gigPin }),
  check: (board, { gig, song }) => firstOf(gigExists(board, gig), songExists(board, song)),
  write: (set, { gig, song, pin }) =>
    setFields(set, "setSongs", [gig, song], { pin, ...(pin === "not tonight" ? { called: false } : {}) }),
});
