/** The night as it was when the stand was opened, and how far it is, kept on this device over a lock or a reload. */
import * as v from "valibot";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { STAND_LINES, type StandNight } from "#shared/selectors/stand.ts";
import { STAND_START, type StandPlace } from "#shared/selectors/stand-place.ts";

export interface Frozen {
  readonly night: StandNight;
  readonly place: StandPlace;
  /** Moment (ms) at which it was frozen. */
  readonly at: number;
}

const FROZEN = v.object({
  night: v.object({
    gig: v.string(),
    title: v.string(),
    player: v.string(),
    songs: v.array(
      v.object({
        id: v.string(),
        title: v.string(),
        block: v.number(),
        lines: v.array(v.object({ name: v.picklist(STAND_LINES), text: v.string() })),
        must: v.boolean(),
        tempo: v.nullable(v.number()),
        metre: v.string(),
      }),
    ),
  }),
  place: v.object({ at: v.pipe(v.number(), v.integer(), v.minValue(0)), paused: v.boolean() }),
  at: v.number(),
});

/** A night lasts past midnight, and what somebody looked at yesterday is not tonight's. */
const NIGHT_MS = 18 * 3_600_000;

/** What is kept under a name and still of this night; null = nothing. */
export const keptNight = (name: string, now: number): Frozen | null => {
  try {
    const read = v.safeParse(FROZEN, JSON.parse(recall(name) ?? ""));
    return read.success && now - read.output.at < NIGHT_MS ? read.output : null;
  } catch {
    return null;
  }
};

export const keepNight = (name: string, frozen: Frozen): void => remember(name, JSON.stringify(frozen));

export const freeze = (night: StandNight, at: number): Frozen => ({ night, place: STAND_START, at });
