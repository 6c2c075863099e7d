/**
 * Slips flagged on a phone that did not log the take itself: they wait on the device until somebody's take of that song is
 * there, and go with it.
 */
import * as v from "valibot";
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Severity, Take } from "../board/take.ts";
import { sameTakeSpan } from "../document/read/read-take.ts";
import type { Day } from "../lib/calendar.ts";
import type { DraftSlip } from "./take-draft.ts";

export interface WaitingSlip extends DraftSlip {
  readonly song: Id;
  /** Moment (ms) its song was left. */
  readonly at: number;
}

const KEPT = v.object({
  day: v.string(),
  slips: v.array(
    v.object({
      song: v.string(),
      chair: v.nullable(v.string()),
      card: v.nullable(v.string()),
      severity: v.picklist([0.5, 1, 2] satisfies readonly Severity[]),
      at: v.number(),
    }),
  ),
});

/** What waits, as a device keeps it for one evening. */
export const keepWaiting = (day: Day, slips: readonly WaitingSlip[]): string =>
  JSON.stringify({ day, slips });

/** Reads what `keepWaiting` wrote; nonsense and another evening count as nothing. */
export const keptWaiting = (text: string, day: Day): readonly WaitingSlip[] => {
  try {
    const kept = v.safeParse(KEPT, JSON.parse(text));
    return kept.success && kept.output.day === day ? kept.output.slips : [];
  } catch {
    return [];
  }
};

/**
 * The take a slip belongs to: of the song, on that rehearsal day, logged within one take's length of the moment its song was
 * left; the nearest in time. Null = nobody has logged it yet.
 */
export const takeForSlip = (file: SongFile, { at }: Pick<WaitingSlip, "at">, day: Day): Take | null => {
  const span = sameTakeSpan(file.song.length);
  let nearest: Take | null = null;
  for (const take of file.takes) {
    if (take.occasion !== `r:${day}` || Math.abs(take.at - at) > span) continue;
    if (nearest === null || Math.abs(take.at - at) < Math.abs(nearest.at - at)) nearest = take;
  }
  return nearest;
};
