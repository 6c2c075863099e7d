import * as v from "valibot";
import { orderAfterAll } from "../document/order-plan.ts";
import {
  capo,
  energy,
  floor,
  lengthSeconds,
  line,
  melody,
  metre,
  name,
  note,
  shapeMatters,
  stage,
  strong,
  tempo,
  tolerance,
} from "../document/schema.ts";
import { nameIsFree } from "./checks.ts";
import { defineCommand } from "./command.ts";
import { setFields } from "./fields.ts";
import { chord, withChordKey } from "./first-chord.ts";

/** What can be said about a song when it is added or revised. */
export const SONG_ENTRIES = {
  title: name,
  stage,
  style: line,
  version: line,
  recordKey: line,
  key: line,
  liftKey: line,
  tempo: v.nullable(tempo),
  metre,
  length: v.nullable(lengthSeconds),
  countIn: line,
  firstChord: chord,
  ending: line,
  tuning: line,
  capo,
  melody: v.nullable(melody),
  shapeMatters,
  openLow: v.boolean(),
  tolerance: v.nullable(tolerance),
  energy: v.nullable(energy),
  floor,
  strong,
  hardToSing: v.boolean(),
  rig: line,
  notes: note,
  playedBefore: v.boolean(),
};

/** Adds a song to the repertoire, behind the others. */
export const addSong = defineCommand({
  name: "addSong",
  schema: v.object({
    ...v.partial(v.object(SONG_ENTRIES)).entries,
    title: name,
    sameTitle: v.optional(v.boolean()),
  }),
  check: (board, { title, sameTitle }) =>
    sameTitle
      ? null
      : nameIsFree(
          "song",
          title,
          [...board.songs.values()].map(({ song }) => ({ id: song.id, name: song.title })),
        ),
  write: (set, { sameTitle: _, ...fields }, { now, newId }, board) => {
    const order = orderAfterAll([...board.songs.values()].map((file) => file.song));
    setFields(set, "songs", [newId()], {
      ...withChordKey(fields, null),
      order,
      addedAt: now,
      deleted: false,
    });
  },
});
