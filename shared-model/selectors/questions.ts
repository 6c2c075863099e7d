/** Questions about songs and details: which wait for an answer, and where they are shown. */
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Question } from "../board/question.ts";
import { isOpen } from "../board/ruling.ts";
import { compareCodeUnits } from "../document/order-key.ts";

type Asked = Pick<SongFile, "questions" | "rulings">;

/** Questions that still wait, over all songs, oldest first. */
export const openQuestions = (songs: Iterable<Asked>): readonly Question[] =>
  [...songs]
    .flatMap((file) => file.questions.filter((question) => isOpen(question, file)))
    .sort((a, b) => a.at - b.at || compareCodeUnits(a.id, b.id));

/** Questions that wait no more, over all songs, latest first. */
export const answeredQuestions = (songs: Iterable<Asked>): readonly Question[] =>
  [...songs]
    .flatMap((file) => file.questions.filter((question) => !isOpen(question, file)))
    .sort((a, b) => b.at - a.at || compareCodeUnits(a.id, b.id));

/** `1 question`, `2 questions`. */
export const questionsWord = (count: number): string => (count === 1 ? "1 question" : `${count} questions`);

/** Questions about one detail. */
export const questionsOn = ({ questions }: Pick<SongFile, "questions">, card: Id): readonly Question[] =>
  questions.filter((question) => question.card === card);

/** Questions about the song itself, and those about details that are off the board. */
export const questionsAboutSong = (file: Pick<SongFile, "questions" | "cards">): readonly Question[] => {
  const cards = new Set(file.cards.map(({ id }) => id));
  return file.questions.filter(({ card }) => card === null || !cards.has(card));
};

/** Open questions in the order a leader takes them up, each group oldest first. */
export interface QuestionGroups {
  readonly disagreements: readonly Question[];
  readonly toNobody: readonly Question[];
  readonly toSomebody: readonly Question[];
}

/** Sorts open questions into disagreements, those to nobody in particular, and those that wait for somebody. */
export const groupQuestions = (open: readonly Question[]): QuestionGroups => ({
  disagreements: open.filter(({ ruling }) => ruling !== null),
  toNobody: open.filter(({ ruling, to }) => ruling === null && to === null),
  toSomebody: open.filter(({ ruling, to }) => ruling === null && to !== null),
});

/** Open questions that wait for this person, over all songs, oldest first. */
export const askedOf = (songs: Iterable<Asked>, member: Id): readonly Question[] =>
  openQuestions(songs).filter(({ to }) => to === member);

/** What this person asked, open or not, over all songs, latest first. */
export const askedBy = (songs: Iterable<Pick<SongFile, "questions">>, member: Id): readonly Question[] =>
  [...songs]
    .flatMap(({ questions }) => questions.filter(({ by }) => by === member))
    .sort((a, b) => b.at - a.at || compareCodeUnits(a.id, b.id));
