import { HistoryScreen } from "#client/features/history/history-screen.tsx";
import type { ScreenProps } from "./screen.tsx";

/** What was changed on the board, of one song if the address names it. */
export const HistoryRoute = ({ params: { song } }: ScreenProps) => <HistoryScreen song={song} />;
