import type { DetailLine } from "./part-view.ts";

/** The details of a part as a screen lays them out. */
export interface PartFolds {
  /** Musts and lifts in sight, at most as many as the band wants to see. */
  readonly shown: readonly DetailLine[];
  /** Musts and lifts beyond that. */
  readonly more: readonly DetailLine[];
  readonly polish: readonly DetailLine[];
}

/** Divides details (musts first) into what is in sight and what is folded. `most` = Settings.cardsShown. */
export const foldDetails = (details: readonly DetailLine[], most: number): PartFolds => {
  const weighty = details.filter(({ card }) => card.weight !== "polish");
  return {
    shown: weighty.slice(0, most),
    more: weighty.slice(most),
    polish: details.filter(({ card }) => card.weight === "polish"),
  };
};
