import type { SongView } from "#client/store/song-view.ts";
import { later } from "#client/ui/later.tsx";
import { SongFold } from "../song-fold.tsx";

const KeyFit = later(async () => (await import("./key-fit.tsx")).KeyFit, "min-h-40");

/** Which key suits who sings it. */
export const KeyFitFold = ({ view }: { readonly view: SongView }) => (
  <SongFold title="Key for the singer" note={view.file.song.melody === null ? "no melody yet" : ""}>
    <KeyFit view={view} />
  </SongFold>
);
