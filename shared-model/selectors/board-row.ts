/** One song as a row of the board. */
import type { Chair, Gig, Person } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { LineUp } from "../board/line-up.ts";
import type { Stage } from "../board/song.ts";
import type { Obstacle } from "../readiness/gate-answer.ts";
import type { GigReady } from "../readiness/gates.ts";
import type { Names } from "../readiness/names.ts";
import type { ScoreInput } from "../readiness/score-input.ts";
import type { SongScore } from "../readiness/song-score.ts";

/** One song with everything computed about it for one gig. */
export interface SongReading {
  readonly file: SongFile;
  readonly chairs: readonly Chair[];
  readonly people: ReadonlyMap<Id, Person>;
  readonly lineUp: LineUp;
  readonly names: Names;
  /** What the night's score was computed from. */
  readonly input: ScoreInput;
  readonly today: SongScore;
  readonly night: SongScore;
  readonly ready: GigReady;
}

export interface BoardRow {
  readonly song: Id;
  readonly title: string;
  readonly style: string;
  readonly stage: Stage;
  /** Score today and on the night, 0 to 1. */
  readonly today: number;
  readonly night: number;
  readonly ready: boolean;
  /** What stands first in the way; null when ready. */
  readonly reason: Obstacle | null;
  /** Expected must slips on the night. */
  readonly trouble: number;
  readonly mostlyClaims: boolean;
  /** Moment (ms) it was last played, practised, marked or, failing that, added. */
  readonly touched: number;
  /** Place in the gig's running order, from 0; null when it is not called. */
  readonly place: number | null;
  /** The member plays in it. */
  readonly mine: boolean;
  readonly noEnding: boolean;
  readonly order: string;
}

/** Share of a score that must rest on the log before it stops being mostly claims. */
const CLAIMS_BELOW = 0.5;

/** True where something is claimed and the log backs less than half of the score. Nothing claimed is no claim. */
export const isMostlyClaims = (score: SongScore): boolean =>
  score.split.said > 0 && score.logShare < CLAIMS_BELOW;

/** The latest moment (ms) up to `asOf` at which anybody did anything with the song; at least when it was added. */
export const touchedAt = (file: SongFile, asOf: number): number => {
  let latest = file.song.addedAt;
  for (const { at } of file.takes) if (at <= asOf && at > latest) latest = at;
  for (const marks of file.statuses.values())
    for (const { at } of marks.values()) if (at <= asOf && at > latest) latest = at;
  return latest;
};

/** Reads one row. `member` = whose rows are "mine". */
export const boardRow = (
  reading: SongReading,
  gig: Pick<Gig, "songs"> | null,
  member: Id | null,
): BoardRow => {
  const { file, today, night, ready, input } = reading;
  const { song } = file;
  const place = gig?.songs.findIndex((entry) => entry.song === song.id) ?? -1;
  return {
    song: song.id,
    title: song.title,
    style: song.style,
    stage: song.stage,
    today: today.score,
    night: night.score,
    ready: ready.ready,
    reason: ready.first,
    trouble: night.trouble,
    mostlyClaims: isMostlyClaims(today),
    touched: touchedAt(file, input.asOf),
    place: place < 0 ? null : place,
    mine: member !== null && night.plan.parts.some(({ holder }) => holder === member),
    noEnding: song.ending.trim() === "",
    order: song.order,
  };
};
