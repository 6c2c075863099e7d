/** Questions about songs and details: which wait for an answer, and where they are shown. */
import type { SongFile } from "../board/board.ts";
import type { Id } from "../board/ids.ts";
import type { Question } from "../board/question.ts";
import { compareCodeUnits } from "../document/order-key.ts";

/** True while nobody has answered. */
export const isOpen = (question: Question): boolean => question.answers.length === 0;

/** Questions nobody has answered yet, over all songs, oldest first. */
export const openQuestions = (songs: Iterable<Pick<SongFile, "questions">>): readonly Question[] =>
  [...songs]
    .flatMap(({ questions }) => questions.filter(isOpen))
    .sort((a, b) => a.at - b.at || compareCodeUnits(a.id, b.id));

/** Questions that have an answer, over all songs, latest first. */
export const answeredQuestions = (songs: Iterable<Pick<SongFile, "questions">>): readonly Question[] =>
  [...songs]
    .flatMap(({ questions }) => questions.filter((question) => !isOpen(question)))
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
