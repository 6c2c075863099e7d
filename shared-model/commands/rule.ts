import * as v from "valibot";
import { id, line, note, source } from "../document/schema.ts";
import { findCard, firstOf, songExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";

/** What a band rules about a song, and the field that carries the ruling. */
const RULED_FIELDS = {
  key: "key",
  version: "version",
  "count-in": "countIn",
  ending: "ending",
  tuning: "tuning",
} as const;
export const RULED = ["key", "version", "count-in", "ending", "tuning", "tempo", "form", "detail"] as const;

/**
 * Writes down what was decided, by whom and when, so that it need not be argued again. A ruling on key, version,
 * count-in, ending or tuning also becomes the song's own entry; one on a detail is linked to its card.
 */
export const rule = defineCommand({
  name: "rule",
  schema: v.object({
    song: id,
    card: v.optional(v.nullable(id), null),
    about: v.picklist(RULED),
    source,
    text: v.pipe(note, v.trim(), v.minLength(1, "say what was decided")),
    why: v.optional(note, ""),
    learnAgain: v.optional(v.boolean(), false),
  }),
  check: (board, { song, card, about, text }) =>
    firstOf(
      songExists(board, song),
      card !== null && findCard(board, card) === null
        ? refuse("gone", "This detail is not on the board any more.")
        : null,
      about in RULED_FIELDS && !v.is(line, text)
        ? refuse("invalid", "Say it in at most 200 characters.")
        : null,
    ),
  write: (set, { song, card, about, source, text, why, learnAgain }, { now, author, newId }, board) => {
    const file = board.songs.get(song);
    if (file === undefined) return;
    const before =
      about === "detail" ? (file.cards.find((c) => c.id === card)?.text ?? "")
      : about === "tempo" ? String(file.song.tempo ?? "")
      : about === "form" ? file.sections.map((s) => `${s.name} ${s.bars}`).join(", ")
      : file.song[RULED_FIELDS[about]]; // biome-ignore format: one decision
    const by = author.member ?? "";
    set("rulings", newId(), { song, card, about, source, text, before, why, by, at: now });
    if (about !== "detail" && about !== "tempo" && about !== "form")
      set("songs", `${song}/${RULED_FIELDS[about]}`, text);
    if (!learnAgain) return;
    if (about === "key" || about === "ending" || about === "tempo" || about === "form")
      set("songs", `${song}/${about}Since`, now);
    if (about === "detail" && card !== null) set("cards", `${card}/since`, now);
  },
});
