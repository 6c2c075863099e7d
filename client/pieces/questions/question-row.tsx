import { type ReactNode, useId, useState } from "react";
import { useAuthor, useBand, useChairs, useGigs, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { TextArea } from "#client/ui/text-field.tsx";
import type { Question } from "#shared/board/question.ts";
import { answerQuestion, settleQuestion, withdrawQuestion } from "#shared/commands/ask-question.ts";
import { QUESTION_MAX } from "#shared/document/schema-log.ts";
import { dayOf } from "#shared/lib/calendar.ts";
import { dayWords } from "#shared/lib/day-words.ts";
import { InPlaceForm } from "../in-place-form.tsx";
import { useAct } from "../use-act.ts";
import { useInPlace } from "../use-in-place.ts";
import { useNames } from "../use-names.ts";

const Answering = ({ question, onDone }: { readonly question: Question; readonly onDone: () => void }) => {
  const act = useAct();
  const { writer } = useAuthor();
  const [text, setText] = useState(question.answers.find((answer) => answer.writer === writer)?.text ?? "");
  const [fault, setFault] = useState<string | undefined>();
  const save = () => {
    if (text.trim() === "") setFault("Write the answer.");
    else if (act(answerQuestion, { question: question.id, text }, `Answered: ${question.text}`)) onDone();
  };
  return (
    <InPlaceForm label={`the answer to “${question.text}”`} onSave={save} onLeave={onDone}>
      <TextArea
        autoFocus
        label="Your answer"
        value={text}
        maxLength={QUESTION_MAX}
        error={fault}
        onChange={(value) => {
          setText(value);
          setFault(undefined);
        }}
      />
    </InPlaceForm>
  );
};

/** Who asks, from which chair, for which night, and when. */
const useAskedWords = ({ by, to, ruling, chair, gig, at, settled }: Question): string => {
  const names = useNames();
  const chairs = useChairs();
  const gigs = useGigs();
  const { timeZone } = useBand();
  const [{ today }] = useViewpoint();
  const seat = chairs.find(({ id }) => id === chair)?.name;
  const night = gigs.find(({ id }) => id === gig);
  return [
    [
      by === "" ? "somebody" : names.member(by),
      ruling === null ? "asks" : "sees a ruling differently",
      to === null ? "" : names.member(to),
    ]
      .join(" ")
      .trim(),
    seat ?? "",
    night === undefined ? "" : `for ${night.name || night.place || dayWords(night.date, { today })}`,
    dayWords(dayOf(at, timeZone), { today }),
    settled ? "settled" : "",
  ]
    .filter((part) => part !== "")
    .join(" · ");
};

export interface QuestionRowProps {
  readonly question: Question;
  /** What it is about, where the list is not beside it. */
  readonly about?: ReactNode;
}

/** One question with its answers, to be answered where it stands. */
export const QuestionRow = ({ question, about }: QuestionRowProps) => {
  const act = useAct();
  const author = useAuthor();
  const names = useNames();
  const words = useAskedWords(question);
  const id = useId();
  const { root, editing, edit, done } = useInPlace<HTMLLIElement>("[data-answer]");
  const mine = question.answers.some(({ writer }) => writer === author.writer);
  const mayTakeOff = author.role === "leader" || (author.member !== null && author.member === question.by);
  return (
    <li ref={root} data-question={question.id} className="border-b border-line py-2">
      {about}
      <p className="caption">{words}</p>
      <p id={id} className={question.answers.length === 0 ? "font-semibold" : undefined}>
        {question.text}
      </p>
      {question.answers.map(({ writer, text, by }) => (
        <p key={writer} className="border-l-2 border-ink pl-3">
          {text}
          <span className="caption block">{by === "" ? "somebody" : names.member(by)}</span>
        </p>
      ))}
      {editing ? <Answering question={question} onDone={done} /> : null}
      {editing || author.role === "guest" ? null : (
        <div className="no-print flex flex-wrap gap-x-3">
          <Button data-answer aria-describedby={id} onClick={edit}>
            {mine ? "Change your answer" : "Answer"}
          </Button>
          {mayTakeOff && !question.settled ? (
            <Button
              tone="quiet"
              aria-describedby={id}
              onClick={() => act(settleQuestion, { question: question.id }, `Settled: ${question.text}`)}
            >
              Settled
            </Button>
          ) : null}
          {mayTakeOff ? (
            <Button
              tone="quiet"
              aria-describedby={id}
              onClick={() => act(withdrawQuestion, { question: question.id }, `Taken off: ${question.text}`)}
            >
              Take it off
            </Button>
          ) : null}
        </div>
      )}
    </li>
  );
};
