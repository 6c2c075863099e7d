/** An order with one song at another place, taken out or put in. Places count from 0 among the others. */
import type { SetOrder } from "#shared/order/set-facts.ts";

export const without = (order: SetOrder, song: string): SetOrder =>
  order.map((block) => block.filter((other) => other !== song));

export const putAt = (order: SetOrder, song: string, block: number, at: number): SetOrder =>
  without(order, song).map((songs, b) =>
    b === block ? [...songs.slice(0, at), song, ...songs.slice(at)] : songs,
  );

/** One step down or up, into the next block from its edge; the same order where there is none. */
export const stepped = (order: SetOrder, song: string, by: -1 | 1): SetOrder => {
  const block = order.findIndex((songs) => songs.includes(song));
  const songs = order[block];
  if (songs === undefined) return order;
  const to = songs.indexOf(song) + by;
  if (to >= 0 && to < songs.length) return putAt(order, song, block, to);
  const next = order[block + by];
  if (next === undefined) return order;
  return putAt(order, song, block + by, by < 0 ? next.length : 0);
};
