import * as v from "valibot";
import { id } from "../document/schema.ts";
import { SONG_ENTRIES } from "./add-song.ts";
import { firstOf, nameIsFree, songExists } from "./checks.ts";
import { defineCommand } from "./command.ts";
import { setFields } from "./fields.ts";
import { withChordKey } from "./first-chord.ts";

/** Fields whose change may ask the details that hang on them to be learnt again. */
const SINCE_FIELDS = { key: "keySince", tempo: "tempoSince", ending: "endingSince" } as const;

/**
 * Changes what is written about a song. With `learnAgain`, a changed key, tempo or ending makes the details
 * that hang on it start afresh; without, it is the same song better described.
 */
export const reviseSong = defineCommand({
  name: "reviseSong",
  schema: v.object({
    song: id,
    fields: v.partial(v.object(SONG_ENTRIES)),
    learnAgain: v.optional(v.boolean(), false),
  }),
  check: (board, { song, fields }) =>
    firstOf(
      songExists(board, song),
      fields.title === undefined
        ? null
        : nameIsFree(
            "song",
            fields.title,
            [...board.songs.values()].map((f) => ({ id: f.song.id, name: f.song.title })),
            song,
          ),
    ),
  write: (set, { song, fields, learnAgain }, { now }, board) => {
    const before = board.songs.get(song)?.song;
    setFields(set, "songs", [song], withChordKey(fields, before ?? null));
    if (!learnAgain || before === undefined) return;
    for (const field of ["key", "tempo", "ending"] as const) {
      const changed = fields[field] !== undefined && fields[field] !== before[field];
      if (changed) setFields(set, "songs", [song], { [SINCE_FIELDS[field]]: now });
    }
  },
});
