/** What an edit of the form does to details, said before it is made. */
import type { SongFile } from "../board/board.ts";
import { type FormEdit, type SectionOut, touchedBy } from "../board/move-places.ts";

const detailsWord = (n: number): string => `${n} ${n === 1 ? "detail" : "details"}`;

/** `3 details move along, 1 detail loses its bar and is marked.`; `No detail moves.` */
export const touchedWords = ({ cards }: Pick<SongFile, "cards">, edit: FormEdit | SectionOut): string => {
  const { moves, loses } = touchedBy(cards, edit);
  const [place, places] = edit.of === "out" ? ["section", "section"] : ["bar", "bars"];
  const said = [
    moves === 0 ? "" : `${detailsWord(moves)} ${moves === 1 ? "moves" : "move"} along`,
    loses === 0
      ? ""
      : loses === 1
        ? `1 detail loses its ${place} and is marked`
        : `${detailsWord(loses)} lose their ${places} and are marked`,
  ].filter((words) => words !== "");
  return said.length === 0 ? "No detail moves." : `${said.join(", ")}.`;
};

/**
 * What taking a section out of the form costs, a sentence each; none where it costs nothing: details that stood in it, and a
 * change of key that what follows stands by.
 */
export const takenOutTold = (
  file: Pick<SongFile, "cards" | "sections">,
  section: string,
): readonly string[] => {
  const at = file.sections.findIndex(({ id }) => id === section);
  const [there, next] = [file.sections[at], file.sections[at + 1]];
  if (there === undefined) return [];
  const edit: SectionOut = { of: "out", section };
  return [
    ...(touchedBy(file.cards, edit).loses === 0 ? [] : [touchedWords(file, edit)]),
    ...(there.key !== "" && next !== undefined && next.key === ""
      ? [`Its change of key goes with it, also for ${next.name}.`]
      : []),
  ];
};
