import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { PlannedBlock } from "../board/rehearsal.ts";

/** A block of a plan with its song. */
export interface PlannedSong {
  /** Tells apart two turns of one song. */
  readonly key: string;
  readonly file: SongFile;
  readonly block: PlannedBlock;
}

/** The blocks of a plan in playing order, without songs that went off the board. */
export const plannedSongs = (
  songs: ReadonlyMap<Id, SongFile>,
  plan: readonly PlannedBlock[],
): readonly PlannedSong[] =>
  plan.flatMap((block, place) => {
    const file = songs.get(block.song);
    return file === undefined ? [] : [{ key: `${block.song} ${place}`, file, block }];
  });
