import { StandScreen } from "#client/features/stand/stand-screen.tsx";
import type { ScreenProps } from "./screen.tsx";

/** A gig on stage. */
export const StandRoute = ({ params: { gig = "" } }: ScreenProps) => <StandScreen key={gig} gig={gig} />;
