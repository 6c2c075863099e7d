import * as v from "valibot";
import { id } from "../document/schema.ts";
import { songExists } from "./checks.ts";
import { defineCommand } from "./command.ts";
import { moveTo } from "./move-to.ts";

/** Puts a song at another place of the repertoire (`index` among the others). */
export const moveSong = defineCommand({
  name: "moveSong",
  schema: v.object({ song: id, index: v.pipe(v.number(), v.integer(), v.minValue(0)) }),
  check: (board, { song }) => songExists(board, song),
  write: (set, { song, index }, _context, board) => {
    const songs = [...board.songs.values()].map((file) => file.song);
    moveTo(songs, song, index, (moved, order) => set("songs", `${moved}/order`, order));
  },
});
