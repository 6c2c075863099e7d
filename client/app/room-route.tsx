import { RoomScreen } from "#client/features/log-take/room-screen.tsx";
import type { ScreenProps } from "./screen.tsx";

/** The evening in the room, at one song if the address names it. */
export const RoomRoute = ({ params: { song } }: ScreenProps) => <RoomScreen song={song} />;
