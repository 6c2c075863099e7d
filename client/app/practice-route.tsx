import { PracticeScreen } from "#client/features/practice/practice-screen.tsx";
import { PractiseDetail } from "#client/features/practice/practise-detail.tsx";
import type { ScreenProps } from "./screen.tsx";

/** What to practise at home, or one detail of it if the address names one. */
export const PracticeRoute = ({ params: { song, card } }: ScreenProps) =>
  song === undefined || card === undefined ? <PracticeScreen /> : <PractiseDetail song={song} card={card} />;
