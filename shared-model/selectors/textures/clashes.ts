/** Details about resting and coming in that say something else than the picture. */
import type { Card } from "../../board/card.ts";
import type { Id } from "../../board/ids.ts";
import { presenceAt } from "../../music/texture-changes.ts";
import { playedWords } from "../texture-words.ts";
import type { PaintedPart, Picture } from "./picture.ts";

export interface TextureClash {
  readonly card: Id;
  readonly chair: Id;
  readonly sentence: string;
}

const said = ({ text }: Card): string => `‘${text.trim().replace(/\s+/g, " ").slice(0, 60)}’`;

/** Bars of its first section that a detail is about; null = less than a bar, or nowhere in this form. */
const barsOf = (card: Card, { sections }: Picture) => {
  const { from, to } = card.where;
  const at = sections.findIndex(({ id }) => id === from?.section);
  const section = sections[at];
  if (from === undefined || section === undefined) return null;
  if (from.beat !== undefined || (to?.section === from.section && to.beat !== undefined)) return null;
  const first = from.bar ?? 1;
  const end = to === undefined ? from.bar : to.section === from.section ? to.bar : undefined;
  const passes = card.where.pass === undefined ? section.passes : card.where.pass;
  const firstPass = card.where.pass ?? 1;
  return { at, section, first, last: Math.min(end ?? section.bars, section.bars), firstPass, passes };
};

const clashOf = (card: Card, part: PaintedPart, picture: Picture): string | null => {
  const place = barsOf(card, picture);
  if (place === null) return null;
  const { at, section, first, last, firstPass, passes } = place;
  const changes = part.cells[at]?.changes ?? [];
  if (changes.length === 0 || first > section.bars) return null;
  const rests = (bar: number, pass: number): boolean => presenceAt(changes, bar, pass) === "rest";
  const picturesIt = `the picture says it ${playedWords(changes, section.bars)}`;
  for (let pass = firstPass; pass <= passes; pass += 1) {
    if (card.kind === "rest")
      for (let bar = first; bar <= last; bar += 1)
        if (!rests(bar, pass))
          return `${said(card)} has ${part.name} rest in ${section.name}; ${picturesIt}.`;
    if (card.kind !== "entry") continue;
    const where = first === 1 ? section.name : `bar ${first} of ${section.name}`;
    if (rests(first, pass)) return `${said(card)} has ${part.name} come in at ${where}; ${picturesIt}.`;
    if (first > 1 && !rests(first - 1, pass))
      return `${said(card)} has ${part.name} come in only at ${where}; ${picturesIt}.`;
  }
  return null;
};

/** In the order of the details. Details smaller than a bar cannot be seen in a picture of bars. */
export const textureClashes = (cards: readonly Card[], picture: Picture): readonly TextureClash[] =>
  cards
    .filter(({ kind }) => kind === "rest" || kind === "entry")
    .flatMap((card) =>
      card.chairs.flatMap((chair) => {
        const part = picture.parts.find((one) => one.chair === chair);
        const sentence = part === undefined ? null : clashOf(card, part, picture);
        return sentence === null ? [] : [{ card: card.id, chair, sentence }];
      }),
    );
