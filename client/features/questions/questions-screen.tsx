import { partLink, songLink } from "#client/pieces/links.ts";
import { QuestionRow } from "#client/pieces/questions/question-row.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useAuthor, useSongs } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { EmptyState } from "#client/ui/empty-state.tsx";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Question } from "#shared/board/question.ts";
import { cardName } from "#shared/readiness/names.ts";
import {
  answeredQuestions,
  askedBy,
  askedOf,
  groupQuestions,
  openQuestions,
  questionsWord,
} from "#shared/selectors/questions.ts";

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

interface ListProps {
  readonly title: string;
  readonly questions: readonly Question[];
  readonly aside?: string;
}

/** One group under its heading; nothing while it is empty. */
const QuestionGroup = ({ title, questions, aside }: ListProps) => {
  const songs = useSongs();
  if (questions.length === 0) return null;
  return (
    <>
      <SectionHeading title={title} aside={aside} />
      <ul>
        {questions.map((question) => (
          <QuestionRow
            key={question.id}
            question={question}
            about={<About question={question} file={songs.get(question.song)} />}
          />
        ))}
      </ul>
    </>
  );
};

/** What somebody wants to know, over all songs: one's own first, then what waits, then what was answered. */
export const QuestionsScreen = () => {
  const songs = useSongs();
  const { member } = useAuthor();
  const open = openQuestions(songs.values());
  const answered = answeredQuestions(songs.values());
  const ofMe = member === null ? [] : askedOf(songs.values(), member);
  const byMe = member === null ? [] : askedBy(songs.values(), member);
  const told = byMe.filter((question) => answered.includes(question) && !question.settled);
  const groups = groupQuestions(open.filter((question) => !ofMe.includes(question)));
  const done = answered.filter((question) => !told.includes(question));
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
      ) : null}
      <QuestionGroup title="Asked of you" questions={ofMe} />
      <QuestionGroup title="Seen differently" questions={groups.disagreements} />
      <QuestionGroup title="To nobody in particular" questions={groups.toNobody} />
      <QuestionGroup title="Waiting for somebody" questions={groups.toSomebody} />
      <QuestionGroup title="You asked, somebody answered" questions={told} />
      {done.length === 0 ? null : (
        <Accordion summary={`Answered: ${questionsWord(done.length)}`}>
          <QuestionGroup title="Answered" aside="latest first" questions={done} />
        </Accordion>
      )}
    </div>
  );
};
