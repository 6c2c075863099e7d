import { GigScreen } from "#client/features/gigs/gig-screen.tsx";
import type { ScreenProps } from "./screen.tsx";

/** One gig. */
export const GigRoute = ({ params: { gig = "" } }: ScreenProps) => <GigScreen key={gig} gig={gig} />;
