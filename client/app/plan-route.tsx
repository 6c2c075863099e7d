import { PlanScreen } from "#client/features/plan-room/plan-screen.tsx";
import type { ScreenProps } from "./screen.tsx";

/** What an evening is to be spent on, of the day in the address or the next one. */
export const PlanRoute = ({ params: { day } }: ScreenProps) => <PlanScreen day={day} />;
