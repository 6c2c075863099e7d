import { later } from "#client/ui/later.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { SongFold } from "../song-fold.tsx";

const ExportItself = later(async () => (await import("./export-itself.tsx")).ExportItself, "min-h-40");

/** The song's grids as files for other programs. */
export const ExportFold = ({ file }: { readonly file: SongFile }) => {
  const grids = file.cards.filter(({ grid }) => grid !== undefined).length;
  return (
    <SongFold
      title="Take it elsewhere"
      note={grids === 1 ? "1 grid" : grids === 0 ? "no grids" : `${grids} grids`}
    >
      <ExportItself file={file} />
    </SongFold>
  );
};
