import type { Board } from "#shared/board/board.ts";
import { lineUpFor } from "#shared/board/line-up.ts";
import { scoreSong } from "#shared/readiness/song-score.ts";
import { scoreBits } from "./score-bits.ts";

/** Every number of every song's score for the usual line-up and for each gig, by name. */
export const allScores = (board: Board, now: number): ReadonlyMap<string, number> => {
  const bits = new Map<string, number>();
  for (const gig of [null, ...board.gigs]) {
    const t = gig === null ? now : Math.max(now, Date.parse(gig.date));
    for (const [id, file] of board.songs) {
      const lineUp = lineUpFor(board, file, gig);
      const input = { file, chairs: board.chairs, lineUp, settings: board.band.settings, t, asOf: now };
      for (const [name, value] of scoreBits(scoreSong(input))) bits.set(`${gig?.id} ${id} ${name}`, value);
    }
  }
  return bits;
};

/** Names of the numbers that differ by even one bit, or that only one of the two has. */
export const differingScores = (a: Board, b: Board, now: number): readonly string[] => {
  const [left, right] = [allScores(a, now), allScores(b, now)];
  return [...new Set([...left.keys(), ...right.keys()])].filter(
    (name) => !Object.is(left.get(name), right.get(name)),
  );
};
