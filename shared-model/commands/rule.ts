import * as v from "valibot";
import type { Board } from "../board/board.ts";
import { openDisagreements, rulingsOn } from "../board/ruling.ts";
import type { Ruling } from "../board/song.ts";
import type { Json } from "../document/board-document.ts";
import { id, line, note, source } from "../document/schema.ts";
import { QUESTION_MAX } from "../document/schema-log.ts";
import { findCard, firstOf, songExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";
import { setFields } from "./fields.ts";
import { withChordKey } from "./first-chord.ts";

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
      about === "detail" ? (rulingsOn(file, { card, about }).at(-1)?.text ?? file.cards.find((c) => c.id === card)?.text ?? "")
      : about === "tempo" ? String(file.song.tempo ?? "")
      : about === "form" ? file.sections.map((s) => `${s.name} ${s.bars}`).join(", ")
      : file.song[RULED_FIELDS[about]]; // biome-ignore format: one decision
    const by = author.member ?? "";
    const known = rulingsOn(file, { card, about });
    const differing = openDisagreements(file).filter(({ ruling }) => known.some(({ id }) => id === ruling));
    // Later than all it settles, however slow this device's clock is.
    const at = Math.max(now, ...[...known, ...differing].map((earlier) => earlier.at + 1));
    const over = known.map(({ id }) => id);
    set("rulings", newId(), { song, card, about, source, text, before, why, over, by, at });
    for (const { id } of differing)
      set("answers", `${id}/${author.writer}`, {
        text: `Ruled again: ${text}`.slice(0, QUESTION_MAX),
        by,
        at,
        withdrawn: false,
      });
    if (about !== "detail" && about !== "tempo" && about !== "form")
      set("songs", `${song}/${RULED_FIELDS[about]}`, text);
    if (about === "key") setFields(set, "songs", [song], withChordKey({ key: text }, file.song));
    if (!learnAgain) return;
    if (about === "key" || about === "ending" || about === "tempo" || about === "form")
      set("songs", `${song}/${about}Since`, now);
    if (about === "detail" && card !== null) set("cards", `${card}/since`, now);
  },
});

const findRuling = (board: Board, ruling: string): Ruling | null => {
  for (const file of board.songs.values()) {
    const found = file.rulings.find(({ id }) => id === ruling);
    if (found) return found;
  }
  return null;
};

/**
 * Takes back what was decided: one's own ruling, or anybody's for the leader. A song's entry that still says what the
 * ruling set goes back to what stood before, unless another ruling says the same or a later one counts.
 */
export const withdrawRuling = defineCommand({
  name: "withdrawRuling",
  schema: v.object({ ruling: id }),
  check: (board, { ruling }, { author }) => {
    const found = findRuling(board, ruling);
    if (found === null) return refuse("gone", "This ruling is not on the board any more.");
    return author.role === "leader" || (author.member !== null && found.by === author.member)
      ? null
      : refuse("forbidden", "Only who made the ruling, or the leader, can withdraw it.");
  },
  write: (set, { ruling }, { stored }, board) => {
    const found = findRuling(board, ruling);
    if (found === null) return;
    set("rulings", ruling, {
      ...(stored("rulings", ruling) as { readonly [key: string]: Json }),
      withdrawn: true,
    });
    const file = board.songs.get(found.song);
    const entry = RULED_FIELDS[found.about as keyof typeof RULED_FIELDS];
    if (file === undefined || entry === undefined || file.song[entry] !== found.text) return;
    const counts = rulingsOn(file, found).at(-1);
    if (counts?.id === ruling) set("songs", `${found.song}/${entry}`, found.before);
  },
});
