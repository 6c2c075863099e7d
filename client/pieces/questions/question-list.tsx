import type { Question } from "#shared/board/question.ts";
import { QuestionRow } from "./question-row.tsx";

/** Questions at the place they are about; nothing where there are none. */
export const QuestionList = ({
  questions,
  label,
}: {
  readonly questions: readonly Question[];
  readonly label: string;
}) =>
  questions.length === 0 ? null : (
    <ul aria-label={label} className="mt-2 border-l-2 border-accent pl-3">
      {questions.map((question) => (
        <QuestionRow key={question.id} question={question} />
      ))}
    </ul>
  );
