import { ListenScreen } from "#client/features/listen/listen-screen.tsx";
import type { ScreenProps } from "./screen.tsx";

/** Details dropped while the record runs. */
export const ListenRoute = ({ params: { song = "" } }: ScreenProps) => <ListenScreen song={song} />;
