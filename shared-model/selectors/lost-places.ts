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

/** Why a stretch cannot be: two edits made apart, or sections that changed places, have put its end before its start. */
const turnedRound = (from: Place, to: Place, { sections }: Pick<SongFile, "sections">): string | null => {
  const [start, end] = [from, to].map(({ section }) => sections.findIndex(({ id }) => id === section));
  const [first, last] = [sections[start ?? -1], sections[end ?? -1]];
  if (start === undefined || end === undefined || first === undefined || last === undefined) return null;
  if (end !== start)
    return end < start ? `It begins in ${first.name} and ends in ${last.name}, which comes before.` : null;
  // An end without a bar is the end of its section, one without a beat that of its bar.
  const [bar, lastBar] = [from.bar ?? 1, to.bar ?? last.bars];
  if (lastBar < bar) return `It begins at bar ${bar} of ${first.name} and ends at bar ${lastBar}.`;
  const isBefore = lastBar === bar && (to.beat ?? Number.POSITIVE_INFINITY) < (from.beat ?? 1);
  return isBefore ? `It ends before it begins, in bar ${bar} of ${first.name}.` : null;
};

/** Every detail of the song that has lost its place, in the order of the song. */
export const lostPlaces = (file: Pick<SongFile, "cards" | "sections">): readonly LostPlace[] =>
  file.cards.flatMap((card) => {
    const { from, to, pass, lost } = card.where;
    const section = file.sections.find(({ id }) => id === from?.section);
    const fault =
      (from === undefined ? null : faultOf(from, file)) ??
      (to === undefined ? null : faultOf(to, file)) ??
      (from === undefined || to === undefined ? null : turnedRound(from, to, file)) ??
      (lost ? "Its bar was taken out of the form." : null) ??
      (pass !== undefined && section !== undefined && section.repeats > 1 && pass > section.repeats
        ? `${section.name} comes ${section.repeats} times only.`
        : null);
    return fault === null ? [] : [{ card, sentence: fault }];
  });
