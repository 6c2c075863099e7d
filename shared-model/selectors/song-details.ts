import type { Card } from "../board/card.ts";
import type { Id } from "../board/ids.ts";
import { castingOf } from "../board/line-up.ts";
import { type DetailLine, type PartSource, standingOn } from "./part-view.ts";

/** The chairs of a card that play this song, in column order. */
const playersOf = ({ file, chairs }: PartSource, card: Card): readonly Id[] =>
  chairs.map(({ id }) => id).filter((id) => card.chairs.includes(id) && castingOf(file, id).plays);

/**
 * Every detail of a song in playing order with the standing of each of its players, column by column; spotted ones
 * and covers that do not apply tonight included.
 */
export const songDetails = (source: PartSource): readonly DetailLine[] =>
  source.file.cards.map((card) => ({
    card,
    standings: playersOf(source, card).map((chair) => standingOn(source, card.id, chair)),
  }));
