import { DebriefScreen } from "#client/features/debrief/debrief-screen.tsx";
import type { ScreenProps } from "./screen.tsx";

/** How a gig went. */
export const DebriefRoute = ({ params: { gig = "" } }: ScreenProps) => <DebriefScreen gig={gig} />;
