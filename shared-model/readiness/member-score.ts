import type { Id } from "../board/ids.ts";
import type { SongScore } from "./song-score.ts";

/**
 * A member's score in one song, 0 to 1: the mean of their own units by share, whatever their partners know.
 * Null when they play nothing in it. Meant for that member and the leader; members are never ranked.
 */
export const scoreMember = (song: SongScore, member: Id): number | null => {
  let sum = 0;
  let share = 0;
  for (const { unit, ownR } of song.units) {
    if (unit.member !== member) continue;
    sum += unit.share * ownR;
    share += unit.share;
  }
  return share > 0 ? sum / share : null;
};

/** The mean over the chosen songs that the member plays in; null when there is none. Order does not matter. */
export const scoreMemberOver = (songs: Iterable<SongScore>, member: Id): number | null => {
  const scores: number[] = [];
  for (const song of songs) {
    const score = scoreMember(song, member);
    if (score !== null) scores.push(score);
  }
  scores.sort((a, b) => a - b);
  return scores.length > 0 ? scores.reduce((sum, score) => sum + score, 0) / scores.length : null;
};
