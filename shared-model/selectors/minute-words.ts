/** A gig's minutes in words. */

import { formatLength } from "../music/duration.ts";
import type { GigOutlook } from "./gig-outlook.ts";

const songsWord = (count: number): string => (count === 1 ? "1 song" : `${count} songs`);

/** How long the running order really is, gaps included: `24:10 with the gaps, 0:50 short of the 25 minutes.` */
export const lengthSentence = ({ minutes, songs }: Pick<GigOutlook, "minutes" | "songs">): string => {
  if (songs.length === 0) return "";
  const { planned, contracted } = minutes;
  // Whole seconds, as they are shown: what rounds to nothing is neither over nor short.
  const over = Math.round((planned - contracted) * 60);
  const fit =
    over === 0 ? `exactly the ${contracted} minutes`
    : `${formatLength(Math.abs(over))} ${over > 0 ? "over" : "short of"} the ${contracted} minutes`; // biome-ignore format: one decision
  return `${formatLength(planned * 60)} with the gaps, ${fit}.`;
};

/** What the sum does not know; empty when it knows every length. */
export const unknownSentence = ({ minutes }: Pick<GigOutlook, "minutes">): string => {
  const count = minutes.unknownLength.length;
  if (count === 0) return "";
  return `${songsWord(count)} without a length ${count === 1 ? "counts" : "count"} as 0 minutes.`;
};
