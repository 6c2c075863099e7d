/** A gig's minutes in words. */

import type { Gig } from "../board/band.ts";
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import { formatLength } from "../music/duration.ts";
import { RETUNE_SECONDS } from "../order/set-facts.ts";
import type { GigOutlook } from "./gig-outlook.ts";
import { blockMinutes, orderOf } from "./running-order.ts";

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

/** What retuning and talk add to that: `With 3 retunings and 2 minutes of talk it is 27:38.`; empty where neither does. */
export const addedSentence = (
  gig: Gig,
  songs: ReadonlyMap<Id, SongFile>,
  usualTuning: string,
  plannedMinutes: number,
): string => {
  const entries = new Map(gig.songs.map((entry) => [entry.song, entry]));
  const tuningOf = (id: Id): string => {
    const song = songs.get(id)?.song;
    return `${entries.get(id)?.tuning ?? (song?.tuning || usualTuning)}|${song?.capo ?? 0}`;
  };
  const retunes = orderOf(gig)
    .map((block) => block.filter((song) => songs.has(song)).map(tuningOf))
    .reduce((sum, block) => sum + block.filter((tuning, i) => i > 0 && tuning !== block[i - 1]).length, 0);
  const talk = gig.talk * blockMinutes(gig).length;
  if (gig.songs.length === 0 || (retunes === 0 && talk === 0)) return "";
  const added = [
    retunes === 0
      ? ""
      : `${retunes} ${retunes === 1 ? "retuning or capo change" : "retunings or capo changes"}`,
    talk === 0 ? "" : `${talk} ${talk === 1 ? "minute" : "minutes"} of talk`,
  ].filter((part) => part !== "");
  const seconds = plannedMinutes * 60 + RETUNE_SECONDS * retunes + talk * 60;
  return `With ${added.join(" and ")} it is ${formatLength(seconds)}.`;
};
