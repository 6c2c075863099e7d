/** An order while it is being searched: pinned songs at their places, free ones in between and around. */
import type { Compiled } from "./compiled.ts";
import type { SetOrder } from "./set-facts.ts";

interface Fixed {
  readonly song: number;
  readonly at: number;
}

export interface Pinned {
  /** By block, ascending by place; the one that closes the block comes last with `at` −1. */
  readonly blocks: readonly (readonly Fixed[])[];
  readonly songs: ReadonlySet<number>;
}

/** The pins that can hold: of known songs and blocks, a song and a place once each. */
export const pinnedIn = ({ brief, indexOf }: Compiled): Pinned => {
  const songs = new Set<number>();
  const blocks: Fixed[][] = brief.blocks.map(() => []);
  for (const pin of brief.pins) {
    const song = indexOf.get(pin.song);
    const block = blocks[pin.block];
    if (song === undefined || block === undefined || songs.has(song)) continue;
    if (block.some(({ at }) => at === pin.at)) continue;
    songs.add(song);
    block.push({ song, at: pin.at });
  }
  const place = ({ at }: Fixed): number => (at < 0 ? Number.POSITIVE_INFINITY : at);
  for (const block of blocks) block.sort((a, b) => place(a) - place(b));
  return { blocks, songs };
};

/** Free songs with the pinned ones put between them at their places; where too few are free, as near as it goes. */
export const woven = (free: readonly number[], fixed: readonly Fixed[]): readonly number[] => {
  if (fixed.length === 0) return free;
  const order: number[] = [];
  let next = 0;
  for (const { song, at } of fixed) {
    const upTo = at < 0 ? Number.POSITIVE_INFINITY : at;
    while (order.length < upTo && next < free.length) order.push(free[next++] as number);
    order.push(song);
  }
  while (next < free.length) order.push(free[next++] as number);
  return order;
};

/** An order of ids as the free songs of each block; unknown, pinned and repeated ones are left out. */
export const freeOf = (order: SetOrder, compiled: Compiled, pinned: Pinned): number[][] => {
  const seen = new Set(pinned.songs);
  return compiled.brief.blocks.map((_, b) =>
    (order[b] ?? []).flatMap((id) => {
      const song = compiled.indexOf.get(id);
      if (song === undefined || seen.has(song)) return [];
      seen.add(song);
      return [song];
    }),
  );
};
