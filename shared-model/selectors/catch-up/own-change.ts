/** What one's own change makes known, read from as little of the board as can have changed: it runs under the thumb. */
import type { Board } from "../../board/board.ts";
import { bandFacts, chairsIn, knownFrom, songFacts } from "./concerns.ts";
import { absorb, type Known, type Whose } from "./fact.ts";

/** True when a change touched nothing that decides who plays what, or in which songs: a tick, a wording, a take. */
const isInSongsOnly = (before: Board, after: Board): boolean =>
  before.songs.size === after.songs.size &&
  (["chairs", "people", "gigs", "rehearsals", "aways", "band"] as const).every(
    (list) => before[list] === after[list],
  ) &&
  [...after.songs].every(([id, file]) => before.songs.get(id)?.castings === file.castings);

/**
 * What is known once somebody has changed the board themselves. A song's facts come from its file and the chairs one has
 * in it: where both are the same on both boards, nothing of it is read.
 */
export const absorbOwn = (
  known: Known,
  [before, after]: readonly [before: Board, after: Board],
  whoseOn: (board: Board) => Whose,
): Known => {
  const [was, is] = [whoseOn(before), whoseOn(after)];
  const inSongsOnly = isInSongsOnly(before, after);
  const isTheSame = (song: string): boolean => {
    const [old, file] = [before.songs.get(song), after.songs.get(song)];
    if (old === undefined || old !== file || was.from !== is.from) return false;
    return inSongsOnly || chairsIn(before, old, was).join() === chairsIn(after, file, is).join();
  };
  const songs = [...new Set([...before.songs.keys(), ...after.songs.keys()])].filter(
    (song) => !isTheSame(song),
  );
  const read = (board: Board, whose: Whose): Known => {
    const facts = songs.flatMap((song) => {
      const file = board.songs.get(song);
      return file === undefined ? [] : [...songFacts(board, file, whose)];
    });
    return knownFrom(inSongsOnly ? facts : [...facts, ...bandFacts(board, whose, known)]);
  };
  return absorb(known, read(before, was), read(after, is));
};
