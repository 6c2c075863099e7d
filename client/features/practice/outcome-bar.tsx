import { step, useActTogether } from "#client/pieces/use-act.ts";
import { useAuthor, useBoardStore, useViewpoint } from "#client/store/hooks.ts";
import { logTake } from "#shared/commands/log-take.ts";
import { markDetail } from "#shared/commands/mark-detail.ts";
import { capital, cardName } from "#shared/readiness/names.ts";
import { soloOccasion } from "#shared/selectors/practice-list.ts";
import type { Outcome } from "#shared/selectors/practice-sitting.ts";
import { markAfter } from "#shared/selectors/practice-sitting.ts";
import type { PracticeDetail } from "./use-detail.ts";

export interface OutcomeBarProps extends Pick<PracticeDetail, "file" | "line"> {
  readonly member: string;
  /** Goes on to the next detail. */
  readonly onDone: () => void;
}

const OUTCOMES: readonly Outcome[] = ["practised", "still shaky"];

/** One press logs the work and marks the detail, and can be undone. */
export const OutcomeBar = ({ file, line, member, onDone }: OutcomeBarProps) => {
  const act = useActTogether();
  const store = useBoardStore();
  const { role } = useAuthor();
  const [{ today }] = useViewpoint();
  const { card, standings } = line;
  if (role === "guest")
    return <p className="py-4 text-quiet">You are looking on; a joining link lets you log.</p>;
  const seats = standings.filter((one) => one.member === member).map(({ chair }) => ({ chair, member }));
  const say = (outcome: Outcome) => {
    const level = markAfter(outcome, standings[0]);
    const log = step(logTake, {
      song: file.song.id,
      occasion: soloOccasion(member, today),
      kind: "solo",
      at: store.now(),
      seats,
      scope: { of: "cards", cards: [card.id] },
      feel: outcome === "practised" ? "clean" : "wobble",
    });
    const marks = level === null ? [] : [step(markDetail, { card: card.id, member, level })];
    if (act([log, ...marks], `${capital(outcome)}: ${cardName(file, card)}`)) onDone();
  };
  return (
    <section
      aria-label="How it sits now"
      className="no-print mt-2 grid grid-cols-2 gap-2 border-b border-line pb-3"
    >
      {OUTCOMES.map((outcome) => (
        <button
          key={outcome}
          type="button"
          onClick={() => say(outcome)}
          className="h-16 rounded-edge border border-control text-title hover:border-ink"
        >
          {capital(outcome)}
        </button>
      ))}
    </section>
  );
};
