import { PartPanel } from "#client/features/part/part-panel.tsx";
import type { ScreenProps } from "./screen.tsx";

/** One part as a page, opened at one detail if the address names it. */
export const PartRoute = ({ params: { song = "", chair = "", card } }: ScreenProps) => (
  <PartPanel song={song} chair={chair} card={card} page />
);
