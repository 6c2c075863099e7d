/** Which song comes next in the room. */
import type { Gig } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { PlannedBlock } from "../board/rehearsal.ts";
import { gigFirst } from "./song-order.ts";

/** What the order is taken from, and the songs on either side; null = it is the first or the last. */
export interface RoomPlace {
  readonly from: "plan" | "gig" | "songs";
  readonly previous: Id | null;
  readonly next: Id | null;
}

/**
 * The neighbours of a song: in the plan of the evening where it stands there, else in the gig's order, else in the list of
 * songs. A song that is planned twice is followed by what comes after its first turn. Songs off the board are passed over.
 */
export const roomPlace = (
  songs: ReadonlyMap<Id, SongFile>,
  plan: readonly Pick<PlannedBlock, "song">[],
  gig: Pick<Gig, "songs"> | null,
  song: Id,
): RoomPlace => {
  const there = (ids: readonly Id[]): readonly Id[] => ids.filter((id) => songs.has(id));
  const { called, others } = gigFirst(songs, gig);
  const lists = [
    { from: "plan", ids: there(plan.map((block) => block.song)) },
    { from: "gig", ids: there(gig?.songs.map((one) => one.song) ?? []) },
    { from: "songs", ids: [...called, ...others].map((file) => file.song.id) },
  ] as const;
  const list = lists.find(({ ids }) => ids.includes(song));
  const at = list?.ids.indexOf(song) ?? -1;
  return {
    from: list?.from ?? "songs",
    previous: list?.ids[at - 1] ?? null,
    next: at < 0 ? null : (list?.ids.slice(at + 1).find((id) => id !== song) ?? null),
  };
};
