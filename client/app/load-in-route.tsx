import { LoadInScreen } from "#client/features/stand/load-in-screen.tsx";
import type { ScreenProps } from "./screen.tsx";

/** What to look after before a gig. */
export const LoadInRoute = ({ params: { gig = "" } }: ScreenProps) => <LoadInScreen key={gig} gig={gig} />;
