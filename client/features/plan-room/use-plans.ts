import { useEffect, useState } from "react";
import { inSlices } from "#client/pieces/in-slices.ts";
import type { PlanQuestion, RoomPlan } from "#shared/plan/evening-plan.ts";
import { plainRule, planRoom } from "#shared/plan/room-plan.ts";

/** Both answers to one question. */
export interface Plans {
  readonly exact: RoomPlan;
  readonly rule: RoomPlan;
}

function* both(question: PlanQuestion): Generator<Plans | null, void> {
  const exact = yield* planRoom(question);
  const rule = yield* plainRule(question);
  yield { exact, rule };
}

/**
 * The plans for a question, worked out after the screen has been painted, a few milliseconds at a time. While another
 * question is being worked out the last answer stays; null = none yet. `key` tells questions apart.
 */
export const usePlans = (
  ask: () => PlanQuestion,
  key: string,
): { readonly plans: Plans | null; readonly busy: boolean } => {
  const [answer, setAnswer] = useState<{ readonly key: string; readonly plans: Plans } | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key says when the question has changed
  useEffect(
    () =>
      inSlices(both(ask()), (found) => {
        const plans = found.at(-1);
        if (plans != null) setAnswer({ key, plans });
      }),
    [key],
  );
  return { plans: answer?.plans ?? null, busy: answer?.key !== key };
};
