import { later } from "#client/ui/later.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { SongFold } from "../song-fold.tsx";

const TempoItself = later(async () => (await import("./tempo-itself.tsx")).TempoItself, "min-h-40");

/** Target and takes. */
export const TempoFold = ({ file }: { readonly file: SongFile }) => (
  <SongFold title="Tempo" note={file.song.tempo === null ? "not settled" : String(file.song.tempo)}>
    <TempoItself file={file} />
  </SongFold>
);
