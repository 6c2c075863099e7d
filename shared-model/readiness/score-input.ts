import type { Chair } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import type { LineUp } from "../board/line-up.ts";
import type { Settings } from "../board/settings.ts";

/**
 * Everything one song's score depends on. The same set of values gives the same score to the last bit,
 * whatever the order of arrival of what is in them.
 */
export interface ScoreInput {
  readonly file: SongFile;
  /** The board's columns; a card's chair that is not among them is absent. */
  readonly chairs: readonly Pick<Chair, "id">[];
  /** Who sits where on the date in question. */
  readonly lineUp: LineUp;
  readonly settings: Settings;
  /** Moment (ms) the score is for: the end of a day in the band's time zone. Normally not before `asOf`. */
  readonly t: number;
  /** Moment (ms) up to which the log is read: now. Takes after min(asOf, t) are ignored. */
  readonly asOf: number;
}

/** The last moment (ms) whose takes count. */
export const cutOf = (input: Pick<ScoreInput, "t" | "asOf">): number => Math.min(input.t, input.asOf);
