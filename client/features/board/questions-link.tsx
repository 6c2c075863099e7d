import { questionsLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { type BoardReading, useBoardSlice } from "#client/store/board-slice.ts";
import { TextLink } from "#client/ui/text-link.tsx";
import { openQuestions, questionsWord } from "#shared/selectors/questions.ts";

const countOpen = ({ board }: BoardReading): number => openQuestions(board.songs.values()).length;

/** How many questions wait for an answer, with the way to them; nothing while none does. */
export const QuestionsLink = () => {
  const href = useHref();
  const count = useBoardSlice(countOpen);
  return count === 0 ? null : (
    <TextLink standing href={href(questionsLink())}>
      {questionsWord(count)}
    </TextLink>
  );
};
