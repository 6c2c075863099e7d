/** Which ruling counts, what was ruled apart, and who sees it differently: all of it read, none of it stored. */
import type { SongFile } from "./board.ts";
import type { Question } from "./question.ts";
import type { Ruling } from "./song.ts";

type Ruled = Pick<SongFile, "rulings">;
type Subject = Pick<Ruling, "card" | "about">;

const isOn = (ruling: Subject, { card, about }: Subject): boolean =>
  card === null ? ruling.card === null && ruling.about === about : ruling.card === card;

/** Rulings on one detail, or on one thing about the song, in order of time; the last one counts. */
export const rulingsOn = ({ rulings }: Ruled, subject: Subject): readonly Ruling[] =>
  rulings.filter((ruling) => isOn(ruling, subject));

/**
 * Rulings that were made without knowing of each other, in order of time: more than one until somebody rules again.
 * @param known rulings on one subject, in order of time
 */
export const standingRulings = (known: readonly Ruling[]): readonly Ruling[] =>
  known.filter(
    ({ id }, place) => !known.some(({ over }, at) => (over === null ? at > place : over.includes(id))),
  );

/** Whether a disagreement is still to be settled: its ruling stands, and no ruling on the same thing came after it. */
const isUnsettled = (file: Ruled, { ruling: id, at }: Question): boolean => {
  const place = file.rulings.findIndex((candidate) => candidate.id === id);
  const ruling = file.rulings[place];
  return (
    ruling !== undefined &&
    !rulingsOn({ rulings: file.rulings.slice(place + 1) }, ruling).some((later) => later.at > at)
  );
};

/** True while a question waits: unanswered, or a disagreement that nobody has settled; never once it was closed. */
export const isOpen = (question: Question, file: Ruled): boolean =>
  !question.settled &&
  (question.ruling === null ? question.answers.length === 0 : isUnsettled(file, question));

/** Who sees a ruling of this song differently, while that is open. */
export const openDisagreements = (file: Pick<SongFile, "rulings" | "questions">): readonly Question[] =>
  file.questions.filter((question) => question.ruling !== null && isOpen(question, file));
