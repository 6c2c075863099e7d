import type { Answer, Question } from "../../board/question.ts";
import { compareCodeUnits } from "../order-key.ts";
import { ANSWER, QUESTION } from "../schema-log.ts";
import { decodeValue, type IssueLog } from "./decode.ts";

const readAnswers = (
  question: string,
  raw: ReadonlyMap<string, unknown>,
  issues: IssueLog,
): readonly Answer[] =>
  [...raw]
    .flatMap(([writer, value]): Answer[] => {
      const answer = decodeValue(ANSWER, value, "answers", `${question}/${writer}`, issues);
      if (answer === null || answer.withdrawn) return [];
      const { text, by, at } = answer;
      return [{ writer, text, by, at }];
    })
    .sort((a, b) => a.at - b.at || compareCodeUnits(a.writer, b.writer));

/** Decodes one question with its answers, or null when it cannot be read or was withdrawn. */
export const readQuestion = (
  id: string,
  raw: unknown,
  rawAnswers: ReadonlyMap<string, unknown>,
  issues: IssueLog,
): Question | null => {
  // Read in any case: whether an answer is broken must not depend on what became of its question.
  const answers = readAnswers(id, rawAnswers, issues);
  if (raw === undefined) return null;
  const question = decodeValue(QUESTION, raw, "questions", id, issues);
  if (question === null || question.withdrawn) return null;
  const { withdrawn: _, ...rest } = question;
  return { id, ...rest, answers };
};
