/** The moves of the search. Only free songs move, and only the blocks that a move touches are costed anew. */
import type { Move, Search } from "./search.ts";

const without = (songs: readonly number[], at: number): number[] => songs.filter((_, i) => i !== at);
export const withAt = (songs: readonly number[], at: number, song: number): number[] => [
  ...songs.slice(0, at),
  song,
  ...songs.slice(at),
];
const withInstead = (songs: readonly number[], at: number, song: number): number[] =>
  songs.map((other, i) => (i === at ? song : other));

const inOne = (block: number, free: readonly number[]): Move => ({
  blocks: [{ block, free }],
  comesIn: null,
  goesOut: null,
});

/** One move at random; null where the one that was drawn has nothing to move. */
export const randomMove = ({ free, unused }: Search, random: () => number): Move | null => {
  const pick = (below: number): number => Math.floor(random() * below);
  const block = pick(free.length);
  const songs = free[block] ?? [];
  const at = pick(songs.length);
  const kind = pick(6);
  const spare = unused[pick(unused.length)];
  if (kind === 0) {
    if (spare === undefined) return null;
    return {
      blocks: [{ block, free: withAt(songs, pick(songs.length + 1), spare) }],
      comesIn: spare,
      goesOut: null,
    };
  }
  const song = songs[at];
  if (song === undefined) return null;
  if (kind === 1) return { blocks: [{ block, free: without(songs, at) }], comesIn: null, goesOut: song };
  if (kind === 2) {
    if (spare === undefined) return null;
    return { blocks: [{ block, free: withInstead(songs, at, spare) }], comesIn: spare, goesOut: song };
  }
  if (kind === 3) {
    const end = pick(songs.length);
    const [low, high] = at < end ? [at, end] : [end, at];
    return inOne(block, [
      ...songs.slice(0, low),
      ...songs.slice(low, high + 1).reverse(),
      ...songs.slice(high + 1),
    ]);
  }
  const to = pick(free.length);
  const others = free[to] ?? [];
  if (kind === 4) {
    if (to === block) return inOne(block, withAt(without(songs, at), pick(songs.length), song));
    const moved = { block: to, free: withAt(others, pick(others.length + 1), song) };
    return { blocks: [{ block, free: without(songs, at) }, moved], comesIn: null, goesOut: null };
  }
  const there = pick(others.length);
  const other = others[there];
  if (other === undefined) return null;
  if (to === block) return inOne(block, withInstead(withInstead(songs, at, other), there, song));
  const swapped = { block: to, free: withInstead(others, there, song) };
  return { blocks: [{ block, free: withInstead(songs, at, other) }, swapped], comesIn: null, goesOut: null };
};

/** Every move, orderly. */
export function* allMoves({ free, unused }: Search): Generator<Move> {
  for (const [block, songs] of free.entries()) {
    for (const song of unused) {
      for (let at = 0; at <= songs.length; at += 1)
        yield { blocks: [{ block, free: withAt(songs, at, song) }], comesIn: song, goesOut: null };
      for (const [at, old] of songs.entries())
        yield { blocks: [{ block, free: withInstead(songs, at, song) }], comesIn: song, goesOut: old };
    }
    for (const [at, song] of songs.entries()) {
      yield { blocks: [{ block, free: without(songs, at) }], comesIn: null, goesOut: song };
      for (let to = 0; to < songs.length; to += 1) {
        if (to !== at) yield inOne(block, withAt(without(songs, at), to, song));
        if (to > at) yield inOne(block, withInstead(withInstead(songs, at, songs[to] as number), to, song));
      }
      for (const [other, others] of free.entries()) {
        if (other === block) continue;
        for (let to = 0; to <= others.length; to += 1)
          yield {
            blocks: [
              { block, free: without(songs, at) },
              { block: other, free: withAt(others, to, song) },
            ],
            comesIn: null,
            goesOut: null,
          };
        if (other < block) continue;
        for (const [there, their] of others.entries())
          yield {
            blocks: [
              { block, free: withInstead(songs, at, their) },
              { block: other, free: withInstead(others, there, song) },
            ],
            comesIn: null,
            goesOut: null,
          };
      }
    }
  }
}
