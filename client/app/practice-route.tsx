import { PractiseDetail } from "#client/features/practice/practise-detail.tsx";
import type { ScreenProps } from "./screen.tsx";

/** One detail to practise at home. */
export const PracticeRoute = ({ params: { song = "", card = "" } }: ScreenProps) => (
  <PractiseDetail song={song} card={card} />
);
