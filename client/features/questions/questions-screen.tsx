import { partLink, songLink } from "#client/pieces/links.ts";
import { QuestionRow } from "#client/pieces/questions/question-row.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useSongs } from "#client/store/hooks.ts";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Question } from "#shared/board/question.ts";
import { cardName } from "#shared/readiness/names.ts";
import { answeredQuestions, openQuestions, questionsWord } from "#shared/selectors/questions.ts";

/** The song a question is about, and the detail, each with the way there. */
const About = ({ question, file }: { readonly question: Question; readonly file: SongFile | undefined }) => {
  const href = useHref();
  if (file === undefined) return null;
  const card = file.cards.find(({ id }) => id === question.card);
  const chair = card?.chairs.find((id) => id === question.chair) ?? card?.chairs[0];
  return (
    <p>
      <TextLink
        standing
        href={href(
          card === undefined || chair === undefined
            ? songLink(file.song.id)
            : partLink(file.song.id, chair, card.id),
        )}
      >
        {file.song.title}
        {card === undefined ? "" : `, ${cardName(file, card)}`}
      </TextLink>
    </p>
  );
};

const idOf = ({ id }: Question): string => id;

/** What somebody wants to know, over all songs: the open ones first, oldest first, answered where they stand. */
export const QuestionsScreen = () => {
  const songs = useSongs();
  const open = openQuestions(songs.values());
  const answered = answeredQuestions(songs.values());
  const rows = (questions: readonly Question[]) => (
    <ul>
      {questions.map((question) => (
        <QuestionRow
          key={idOf(question)}
          question={question}
          about={<About question={question} file={songs.get(question.song)} />}
        />
      ))}
    </ul>
  );
  return (
    <div className="max-w-3xl">
      <PageHeading
        title="Questions"
        above={open.length === 0 ? "none open" : `${questionsWord(open.length)} open`}
      />
      {open.length === 0 ? (
        <EmptyState title="Nobody waits for an answer">
          A dep asks from their gig, and anybody from a song. What is asked stands here until somebody
          answers.
        </EmptyState>
      ) : (
        rows(open)
      )}
      {answered.length === 0 ? null : (
        <>
          <SectionHeading title="Answered" aside="latest first" />
          {rows(answered)}
        </>
      )}
    </div>
  );
};
