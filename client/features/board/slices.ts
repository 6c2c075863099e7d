/** What each piece of a row reads of its song. Stable functions, so that a piece renders for its own change only. */
import { readyOf } from "#client/store/ready-of.ts";
import type { SongView } from "#client/store/song-view.ts";
import type { Stage } from "#shared/board/song.ts";
import type { Obstacle } from "#shared/readiness/gate-answer.ts";
import { isMostlyClaims } from "#shared/selectors/board-row.ts";
import { pointsOf } from "#shared/selectors/points.ts";

export interface TitleSlice {
  readonly title: string;
  readonly stage: Stage;
}

export const titleSlice = ({ file }: SongView): TitleSlice => ({
  title: file.song.title,
  stage: file.song.stage,
});

export const sameTitle = (a: TitleSlice, b: TitleSlice): boolean =>
  a.title === b.title && a.stage === b.stage;

export interface ScoreSlice {
  /** Whole points. */
  readonly today: number;
  readonly night: number;
  readonly mostlyClaims: boolean;
}

export const scoreSlice = ({ today, night }: SongView): ScoreSlice => ({
  today: pointsOf(today.score),
  night: pointsOf(night.score),
  mostlyClaims: isMostlyClaims(today),
});

export const sameScore = (a: ScoreSlice, b: ScoreSlice): boolean =>
  a.today === b.today && a.night === b.night && a.mostlyClaims === b.mostlyClaims;

export interface ReadySlice {
  readonly reason: Obstacle | null;
  /** Gates the leader let pass. */
  readonly waived: number;
}

export const readySlice = (view: SongView): ReadySlice => {
  const { first, gates } = readyOf(view);
  return { reason: first, waived: gates.filter((gate) => !gate.ok && gate.waived !== null).length };
};

export const sameReady = (a: ReadySlice, b: ReadySlice): boolean =>
  a.waived === b.waived &&
  a.reason?.sentence === b.reason?.sentence &&
  a.reason?.names.card === b.reason?.names.card &&
  a.reason?.names.chair === b.reason?.names.chair &&
  a.reason?.names.take === b.reason?.names.take;
