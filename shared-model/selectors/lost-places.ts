/** Details whose place in the form is gone: they keep their words and wait for somebody to say anew where they are. */
import type { SongFile } from "../board/board.ts";
import type { Card, Place } from "../board/card.ts";

export interface LostPlace {
  readonly card: Card;
  /** One sentence. */
  readonly sentence: string;
}

const faultOf = ({ section, bar }: Place, { sections }: Pick<SongFile, "sections">): string | null => {
  const there = sections.find(({ id }) => id === section);
  if (there === undefined) return "Its section was taken out of the form.";
  return bar !== undefined && bar > there.bars
    ? `${there.name} has ${there.bars} ${there.bars === 1 ? "bar" : "bars"} only, and it stands at bar ${bar}.`
    : null;
};

/** Every detail of the song that has lost its place, in the order of the song. */
export const lostPlaces = (file: Pick<SongFile, "cards" | "sections">): readonly LostPlace[] =>
  file.cards.flatMap((card) => {
    const { from, to, pass, lost } = card.where;
    const section = file.sections.find(({ id }) => id === from?.section);
    const fault =
      (from === undefined ? null : faultOf(from, file)) ??
      (to === undefined ? null : faultOf(to, file)) ??
      (lost ? "Its bar was taken out of the form." : null) ??
      (pass !== undefined && section !== undefined && section.repeats > 1 && pass > section.repeats
        ? `${section.name} comes ${section.repeats} times only.`
        : null);
    return fault === null ? [] : [{ card, sentence: fault }];
  });
