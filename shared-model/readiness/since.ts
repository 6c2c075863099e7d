import type { SongFile } from "../board/board.ts";
import type { Card, CardKind } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import type { Song } from "../board/song.ts";

/** Which change of the song asks for which kinds of detail to be learnt again. */
const TOUCHED_BY: Partial<Record<CardKind, keyof Song["since"]>> = {
  position: "key",
  shape: "key",
  register: "key",
  harmony: "key",
  "vocal entry": "key",
  groove: "tempo",
  pattern: "tempo",
  tempo: "tempo",
  ending: "ending",
};

/**
 * The moment (ms) from which takes and claims speak of the card as it stands now: the latest of its own writing,
 * the last change of the song that touches its kind, and the last change of the sections it stands in.
 */
export const sinceOf = (file: Pick<SongFile, "song" | "sections">, card: Card): number => {
  const touched = TOUCHED_BY[card.kind];
  let since = Math.max(card.since, touched === undefined ? 0 : file.song.since[touched]);
  if (card.where.from === undefined) return since;
  since = Math.max(since, file.song.since.form);
  const stretch = sectionsOf(file, card);
  for (const section of file.sections) {
    if (section.since > since && stretch.includes(section.id)) since = section.since;
  }
  return since;
};

/**
 * The sections a card stretches over, in playing order; none for a card about the whole song.
 * A section that is gone still counts by its name at either end, so its takes keep their meaning.
 */
export const sectionsOf = (file: Pick<SongFile, "sections">, card: Card): readonly Id[] => {
  const { from, to } = card.where;
  if (from === undefined) return [];
  if (to === undefined || to.section === from.section) return [from.section];
  const order = file.sections.map((section) => section.id);
  const first = order.indexOf(from.section);
  const last = order.indexOf(to.section);
  return first < 0 || last < first ? [from.section, to.section] : order.slice(first, last + 1);
};
