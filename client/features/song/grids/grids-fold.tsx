import { later } from "#client/ui/later.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { SongFold } from "../song-fold.tsx";

const SongGrids = later(async () => (await import("./song-grids.tsx")).SongGrids, "min-h-40");

/** All grids of a song; nothing where no detail has one. */
export const GridsFold = ({ file }: { readonly file: SongFile }) => {
  const count = file.cards.filter(
    ({ grid, recordedGrid }) => grid !== undefined || recordedGrid !== undefined,
  ).length;
  return count === 0 ? null : (
    <SongFold title="Grids" note={String(count)}>
      <SongGrids file={file} />
    </SongFold>
  );
};
