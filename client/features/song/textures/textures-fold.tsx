import type { SongView } from "#client/store/song-view.ts";
import { later } from "#client/ui/later.tsx";
import { SongFold } from "../song-fold.tsx";

const Textures = later(async () => (await import("./textures.tsx")).Textures, "min-h-96");

/** Fetched with the screen, as what is printed has to be there when printing begins. */
export const TexturePaper = later(async () => (await import("./texture-paper.tsx")).TexturePaper, "hidden");

/** Who plays when. */
export const TexturesFold = ({ view }: { readonly view: SongView }) => (
  <SongFold title="Who plays when" note={view.file.textures.size === 0 ? "not painted yet" : ""}>
    <Textures view={view} />
  </SongFold>
);
