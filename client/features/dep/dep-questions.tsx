import type { DepGigStore } from "#client/store/dep-gig.ts";
import { Button } from "#client/ui/button.tsx";
import type { AnswerState, ShownQuestion } from "#shared/selectors/dep-view.ts";

/** What became of an answer of this phone, in words; empty where the screen says it already. */
export const stateWords = (state: AnswerState): string =>
  state === "on this phone" ? "on this phone, sent when there is signal" : state;

/** Why something was not taken, until its owner has read it. */
export const Refused = ({
  id,
  sentence,
  store,
}: {
  readonly id: string;
  readonly sentence: string;
  readonly store: DepGigStore;
}) => (
  <div className="border-l-2 border-slip pl-3">
    <p>Not taken: {sentence}</p>
    <Button tone="quiet" onClick={() => store.dismiss(id)}>
      I have read this
    </Button>
  </div>
);

const Line = ({ question, store }: { readonly question: ShownQuestion; readonly store: DepGigStore }) => (
  <li className="py-1">
    <p>
      <span className="caption">You asked: </span>
      {question.text}
    </p>
    {question.answers.map(({ text, by }) => (
      <p key={`${by}/${text}`} className="border-l-2 border-ink pl-3 font-semibold">
        {text}
        <span className="caption block font-normal">{by === "" ? "the band" : by}</span>
      </p>
    ))}
    {question.state === "refused" ? (
      <Refused id={question.id} sentence={question.sentence} store={store} />
    ) : question.answers.length > 0 ? null : (
      <p className="caption">
        {question.state === "saved" ? "saved, no answer yet" : stateWords(question.state)}
      </p>
    )}
  </li>
);

/** One's own questions at one place, each with its answers or with what became of it. */
export const DepQuestions = ({
  questions,
  store,
}: {
  readonly questions: readonly ShownQuestion[];
  readonly store: DepGigStore;
}) =>
  questions.length === 0 ? null : (
    <ul className="mt-2 border-l border-control pl-3 no-print">
      {questions.map((question) => (
        <Line key={question.id} question={question} store={store} />
      ))}
    </ul>
  );
