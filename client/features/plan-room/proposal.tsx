import { useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { useSongs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { choosePlan } from "#shared/commands/plan-rehearsal.ts";
import type { RoomPlan } from "#shared/plan/evening-plan.ts";
import { changesWords, planChanges } from "#shared/selectors/plan-words.ts";
import { HomeworkList } from "./homework-list.tsx";
import { MustsLeftOut } from "./musts-left-out.tsx";
import { OtherSongs } from "./other-songs.tsx";
import { ProposedLines } from "./proposed-lines.tsx";
import type { Evening } from "./use-evening.ts";
import { useOrder } from "./use-order.ts";
import { type Plans, usePlans } from "./use-plans.ts";

export interface ProposalProps {
  readonly evening: Evening;
  /** The plan was chosen, or the one in use stays. */
  readonly onDone: () => void;
}

/** What the minutes are best spent on, for the leader to pin, order and choose. */
export const Proposal = ({ evening, onDone }: ProposalProps) => {
  const { plans, busy } = usePlans(evening.ask, evening.key);
  if (plans === null)
    return (
      <p className="min-h-24 py-4 text-quiet" role="status">
        Weighing every song against the minutes.
      </p>
    );
  return <Weighed plans={plans} busy={busy} evening={evening} onDone={onDone} />;
};

/** Worth of a plan in whole points. */
const points = ({ value }: RoomPlan): number => Math.round(value * 100);

interface WeighedProps extends ProposalProps {
  readonly plans: Plans;
  readonly busy: boolean;
}

const Weighed = ({ plans, busy, evening, onDone }: WeighedProps) => {
  const act = useAct();
  const songs = useSongs();
  const [which, setWhich] = useState<keyof Plans>("exact");
  const plan = plans[which];
  const [lines, move] = useOrder(plan);
  const { day, plan: inUse } = evening.evening;
  const blocks = lines.map(({ block }) => ({ ...block, cards: [...block.cards] }));
  const title = (song: string): string => songs.get(song)?.song.title ?? "a song that is gone";
  const changes = changesWords(planChanges(inUse, blocks), title);
  // More points for fewer musts is no better answer to the same question.
  const fewerMusts = plans.rule.refused.length > plans.exact.refused.length ? ", fewer musts" : "";
  const choose = () => {
    if (act(choosePlan, { day, plan: blocks }, "The plan is in use")) onDone();
  };
  return (
    <>
      <div className="no-print mt-6">
        <Choice
          label="Which plan"
          value={which}
          options={[
            { value: "exact", label: `Exact, ${points(plans.exact)} points` },
            { value: "rule", label: `Plain rule, ${points(plans.rule)} points${fewerMusts}` },
          ]}
          onChange={setWhich}
        />
        <p className="caption mt-2">
          Points: the rise to be expected on the night, summed over the songs. The first and last song of the
          running order count a quarter more, songs outside it a quarter of it; a song whose last gates can be
          cleared counts extra. The plain rule is the running order, lowest score first, whole runs; in
          simulation it did as well on whole runs.
        </p>
      </div>
      {inUse.length === 0 ? null : (
        <div className="mt-4">
          <h2 className="font-semibold">Since the plan in use</h2>
          {changes.length === 0 ? (
            <p>Nothing changed.</p>
          ) : (
            changes.map((words) => <p key={words}>{words}</p>)
          )}
        </div>
      )}
      {/* Until the answer fits the question, nothing can be said of what was just asked. */}
      {busy ? null : <MustsLeftOut plan={plan} evening={evening} title={title} />}
      <ProposedLines evening={evening} lines={lines} minutes={plan.minutes} busy={busy} onMove={move} />
      <div className="no-print mt-4 flex flex-wrap items-center gap-3">
        {lines.length === 0 ? null : (
          <Button tone="main" disabled={busy} onClick={choose}>
            Use this plan
          </Button>
        )}
        {inUse.length === 0 ? null : <Button onClick={onDone}>Keep the plan in use</Button>}
        <Button onClick={() => window.print()}>Print</Button>
      </div>
      <OtherSongs evening={evening} planned={lines.map(({ song }) => song)} />
      <HomeworkList homework={plan.homework} />
    </>
  );
};
