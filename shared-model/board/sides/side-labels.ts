import type { SideName } from "../card.ts";

/** What a side is called in a sentence: “the tone”. */
export const SIDE_LABELS: { readonly [S in SideName]: string } = {
  tone: "tone",
  harmony: "harmony",
  dynamics: "dynamics",
  cymbals: "cymbal plan",
  ending: "ending",
  hand: "hand position",
};
