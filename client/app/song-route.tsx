import { SongScreen } from "#client/features/song/song-screen.tsx";
import type { ScreenProps } from "./screen.tsx";

/** One song whole, its log opened at one take if the address names it. */
export const SongRoute = ({ params: { song = "", take } }: ScreenProps) => (
  <SongScreen song={song} take={take} />
);
