/**
 * How often the board was right: of the songs it called ready on the day before a gig, how many ran clean there.
 * Governing rule: only what was known then counts. Takes, slips, details, waivers and absences said after that day are left out, and marks
 * made since give way to what they replaced (`songThen`). Wordings, the song's facts and who sat where are as they are now.
 */
import { awayOn } from "../board/away-on.ts";
import type { Board } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { lineUpFor } from "../board/line-up.ts";
import { addDays, endOfDay } from "../lib/calendar.ts";
import { gigReady } from "../readiness/gates.ts";
import { namesOf } from "../readiness/names.ts";
import type { ScoreInput } from "../readiness/score-input.ts";
import { scoreSong } from "../readiness/song-score.ts";
import { songThen } from "./song-then.ts";

/** One song of one past gig: what was expected, and what came. */
export interface Outcome {
  readonly gig: Id;
  readonly song: Id;
  /** Score for the night as of the day before, 0 to 1. */
  readonly score: number;
  readonly ready: boolean;
  readonly clean: boolean;
}

/** Every song that was logged at a gig before `today`, as it was seen the day before. */
export function* outcomesOf(board: Board, today: string): Generator<Outcome, void> {
  const { chairs, band } = board;
  const names = namesOf(board);
  for (const gig of board.gigs.filter(({ date }) => date < today)) {
    const asOf = endOfDay(addDays(gig.date, -1), band.timeZone);
    const asKnown = {
      ...gig,
      waivers: gig.waivers.filter(({ at }) => at < asOf),
      away: awayOn({ ...board, aways: board.aways.filter(({ at }) => at < asOf) }, gig.date),
    };
    for (const file of board.songs.values()) {
      const played = file.takes.findLast((take) => take.occasion === `g:${gig.id}`);
      if (played === undefined) continue;
      const input: ScoreInput = {
        file: songThen(file, asOf),
        chairs,
        lineUp: lineUpFor(board, file, asKnown),
        settings: band.settings,
        t: endOfDay(gig.date, band.timeZone),
        asOf,
      };
      const score = scoreSong(input);
      const { ready } = gigReady(input, { gig: asKnown, names }, score);
      yield { gig: gig.id, song: file.song.id, score: score.score, ready, clean: played.feel === "clean" };
    }
  }
}

/** Songs below which a rate says nothing. */
const ENOUGH = 10;
/** Standard normal quantile of 95 %, two-sided. */
const Z95 = 1.959964;

/** Interval for a rate: Wilson, "Probable inference, the law of succession, and statistical inference", JASA 22 (1927). */
export const wilson = (hits: number, of: number): readonly [low: number, high: number] => {
  if (of === 0) return [0, 1];
  const p = hits / of;
  const z = Z95 ** 2 / of;
  const middle = (p + z / 2) / (1 + z);
  const half = (Z95 / (1 + z)) * Math.sqrt((p * (1 - p)) / of + z / (4 * of));
  return [Math.max(0, middle - half), Math.min(1, middle + half)];
};

/** Mean squared difference of what was expected and what came, 0 to 1: Brier, Monthly Weather Review 78 (1950). */
export const brier = (outcomes: readonly Pick<Outcome, "score" | "clean">[]): number =>
  outcomes.length === 0
    ? 0
    : outcomes.reduce((sum, { score, clean }) => sum + (score - (clean ? 1 : 0)) ** 2, 0) / outcomes.length;

const BANDS = [
  [0, 0.5, "under 50 %"],
  [0.5, 0.7, "50 to 70 %"],
  [0.7, 0.85, "70 to 85 %"],
  [0.85, 1.01, "85 % and over"],
] as const;

export interface HitRate {
  /** Songs that were called ready, and those of them that ran clean. */
  readonly ready: number;
  readonly clean: number;
  /** Enough songs to say something. */
  readonly enough: boolean;
  readonly sentence: string;
  /** By the score of the day before: how many songs, how many of them clean. */
  readonly bands: readonly { readonly name: string; readonly songs: number; readonly clean: number }[];
  readonly brier: number;
}

const percent = (share: number): number => Math.round(share * 100);

export const hitRate = (outcomes: readonly Outcome[]): HitRate => {
  const called = outcomes.filter(({ ready }) => ready);
  const clean = called.filter((outcome) => outcome.clean).length;
  const [low, high] = wilson(clean, called.length);
  const enough = called.length >= ENOUGH;
  const songs = `${called.length} ${called.length === 1 ? "song" : "songs"}`;
  const sentence =
    called.length === 0
      ? "No song that was called ready has been logged at a gig yet."
      : enough
        ? `Of ${songs} called ready the day before, ${clean} ran clean: ${percent(clean / called.length)} %, which may be anything from ${percent(low)} to ${percent(high)} %.`
        : `Of ${songs} called ready the day before, ${clean} ran clean. Too few to tell: ${ENOUGH} would be a start.`;
  return {
    ready: called.length,
    clean,
    enough,
    sentence,
    bands: BANDS.map(([from, to, name]) => {
      const inBand = outcomes.filter(({ score }) => score >= from && score < to);
      return { name, songs: inBand.length, clean: inBand.filter((outcome) => outcome.clean).length };
    }),
    brier: brier(outcomes),
  };
};
