/** How long an evening played, told by when its takes were logged; nothing else knows. */
import type { Id } from "../board/ids.ts";
import type { Take } from "../board/take.ts";

const MINUTE = 60_000;
/** A longer stretch before a take held a pause; the rest of it is nobody's. Common practice, no published source. */
const LONGEST = 15 * MINUTE;
/** As long without a take counts as a pause. */
const PAUSE = 10 * MINUTE;
/** Playing for so long asks for a pause. Common practice, no published source. */
const BREAK_AFTER = 45;

export interface EveningTime {
  /** Minutes up to each logged take, talk in between included. */
  readonly played: number;
  /** By song, in the order they were first played; sums to `played`. */
  readonly bySong: ReadonlyMap<Id, number>;
  /** Minutes since the last pause; 0 while one lasts. */
  readonly sincePause: number;
}

export interface EveningSpan {
  /** When playing began; null = nobody said: then the first take's own time is unknown and counts as nothing. */
  readonly from: number | null;
  /** Now, or when the evening was ended. */
  readonly to: number;
}

type Played = Pick<Take, "id" | "song" | "at">;

/** Reads the takes of one evening, in any order. Each take gets the time since the one before, at most a quarter of an hour. */
export const eveningTime = (takes: readonly Played[], { from, to }: EveningSpan): EveningTime => {
  const bySong = new Map<Id, number>();
  let last = from;
  let streak = 0;
  for (const take of [...takes].sort((a, b) => a.at - b.at || (a.id < b.id ? -1 : 1))) {
    const gap = last === null ? 0 : Math.max(0, take.at - last);
    const spent = Math.min(gap, LONGEST);
    streak = gap > LONGEST ? spent : streak + spent;
    bySong.set(take.song, (bySong.get(take.song) ?? 0) + spent / MINUTE);
    last = Math.max(last ?? take.at, take.at);
  }
  const quiet = last === null ? 0 : Math.max(0, to - last);
  const played = [...bySong.values()].reduce((sum, minutes) => sum + minutes, 0);
  return { played, bySong, sincePause: quiet >= PAUSE ? 0 : (streak + quiet) / MINUTE };
};

/** Suggests a pause after long playing; empty = none is due. Nothing here measures how loud it was. */
export const pauseSentence = ({ sincePause }: Pick<EveningTime, "sincePause">): string =>
  sincePause < BREAK_AFTER
    ? ""
    : `${Math.floor(sincePause)} minutes since the last pause: a few quiet ones would do your ears good.`;

/** `38 of 85 minutes played`; without a number of minutes to play `38 minutes played`. */
export const playedWords = ({ played }: Pick<EveningTime, "played">, toPlay: number): string => {
  const minutes = Math.floor(played);
  return toPlay > 0 ? `${minutes} of ${toPlay} minutes played` : `${minutes} minutes played`;
};
