import type { Card } from "../board/card.ts";
import type { Json } from "../document/board-document.ts";

/** The stored body of a card: everything but its texts and what has a key of its own. */
export const bodyOf = (card: Card): { readonly [name: string]: Json } => {
  const {
    id: _,
    text,
    right,
    versions,
    since,
    grid,
    recordedGrid,
    shape,
    sides,
    where,
    without,
    ...body
  } = card;
  const place: Json = JSON.parse(JSON.stringify(where));
  return { ...body, where: place, ...(without === undefined ? {} : { without }) };
};
