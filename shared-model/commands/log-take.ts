import * as v from "valibot";
import type { SongFile } from "../board/board.ts";
import type { Take } from "../board/take.ts";
import { sameTakeSpan } from "../document/read/read-take.ts";
import { NONE } from "../document/root-maps.ts";
import { feel, id, line, moment, takeKind, tempo } from "../document/schema.ts";
import { scope, seats } from "../document/schema-log.ts";
import { firstOf, songExists } from "./checks.ts";
import { defineCommand, refuse } from "./command.ts";
import { slipEntry } from "./flag-slip.ts";

/** A moment may lie this far (ms) in the future before we say so; phones disagree by minutes. */
const CLOCK_SLACK = 10 * 60_000;

/** Slot numbers this writer has used for a song on one occasion, and what others logged there. */
const slotsOf = (file: SongFile | undefined, occasion: string): readonly Take[] =>
  (file?.takes ?? []).filter((take) => take.occasion === occasion);

/**
 * The number a new take gets. A take that somebody else has just logged, and this device has not, is the same
 * take seen from another chair; otherwise it is the next one. "Just" = too recent for another full run.
 */
export const takeNumber = (
  file: SongFile | undefined,
  occasion: string,
  at: number,
  writer: string,
): number => {
  const takes = slotsOf(file, occasion);
  const last = takes.reduce<Take | null>(
    (latest, take) => (latest === null || take.no > latest.no ? take : latest),
    null,
  );
  if (last === null) return 1;
  const recent = Math.abs(at - last.at) <= sameTakeSpan(file?.song.length ?? null) / 2;
  return recent && !last.writers.includes(writer) ? last.no : last.no + 1;
};

/** Logs how a run, drill or gig performance of one song went, with the slips people flagged in it. */
export const logTake = defineCommand({
  name: "logTake",
  schema: v.object({
    song: id,
    occasion: v.pipe(id, v.regex(/^(r:|g:|s:).+/, "name the rehearsal day, the gig or the practice day")),
    kind: takeKind,
    /** When it was played, ms. */
    at: moment,
    seats,
    scope: v.optional(scope, { of: "whole" }),
    feel,
    tempoStart: v.optional(v.nullable(tempo), null),
    tempoEnd: v.optional(v.nullable(tempo), null),
    key: v.optional(v.nullable(line), null),
    slips: v.optional(v.array(slipEntry), []),
  }),
  check: (board, { song, at }, { now }) =>
    firstOf(
      songExists(board, song),
      at > now + CLOCK_SLACK
        ? refuse("invalid", "This take lies in the future. Correct its day, or the clock of this device.")
        : null,
    ),
  write: (set, { song, occasion, slips, ...take }, { author, stored }, board) => {
    const file = board.songs.get(song);
    const next = takeNumber(file, occasion, take.at, author.writer);
    const joins = slotsOf(file, occasion).some(({ no }) => no === next);
    const slotAt = (no: number): string => `${occasion}/${song}/${no}`;
    // A number this device took back stays with that take, which somebody may put back into the log.
    let no = next;
    while (!joins && stored("takes", `${slotAt(no)}/${author.writer}`) !== undefined) no += 1;
    const slot = slotAt(no);
    set("takes", `${slot}/${author.writer}`, { ...take, by: author.member ?? "", withdrawn: false });
    for (const slip of slips) {
      set("slips", `${slot}/${slip.chair ?? NONE}/${slip.card ?? NONE}/${author.writer}`, {
        severity: slip.severity,
        at: take.at,
      });
    }
  },
});
