/** A song's details that have a grid, by the place they belong to. */
import type { SongFile } from "../../board/board.ts";
import type { Card } from "../../board/card.ts";
import { formatWhere } from "../../board/where.ts";

export interface PlaceOfGrids {
  /** In words: `Chorus 1 – Chorus 3`. */
  readonly place: string;
  /** At least one. */
  readonly cards: readonly Card[];
}

/** In playing order, each place once. */
export const gridsByPlace = ({
  cards,
  sections,
}: Pick<SongFile, "cards" | "sections">): readonly PlaceOfGrids[] => {
  const places = new Map<string, Card[]>();
  for (const card of cards) {
    if (card.grid === undefined && card.recordedGrid === undefined) continue;
    const place = formatWhere(card.where, sections);
    places.set(place, [...(places.get(place) ?? []), card]);
  }
  return [...places].map(([place, cards]) => ({ place, cards }));
};
