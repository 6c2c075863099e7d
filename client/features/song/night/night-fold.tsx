import { later } from "#client/ui/later.tsx";
import type { Song } from "#shared/board/song.ts";
import { SongFold } from "../song-fold.tsx";

const NightFacts = later(async () => (await import("./night-facts.tsx")).NightFacts, "min-h-96");

/** What the song is good for on a night. */
export const NightFold = ({ song }: { readonly song: Song }) => (
  <SongFold title="On the night" note={song.energy === null ? "not said" : `energy ${song.energy}`}>
    <NightFacts song={song} />
  </SongFold>
);
