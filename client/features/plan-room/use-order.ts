import { useState } from "react";
import type { PlanLine, RoomPlan } from "#shared/plan/evening-plan.ts";

/** A plan's lines in the order the leader put them, until there is another plan. */
export const useOrder = (
  plan: RoomPlan,
): readonly [readonly PlanLine[], (song: string, index: number) => boolean] => {
  const [own, setOwn] = useState<{ readonly of: RoomPlan; readonly lines: readonly PlanLine[] } | null>(null);
  const lines = own?.of === plan ? own.lines : plan.lines;
  const move = (song: string, index: number): boolean => {
    const line = lines.find((one) => one.song === song);
    // Each stretch of the evening has its own people: a song stays in it.
    if (line === undefined || lines[index]?.phase !== line.phase) return false;
    const others = lines.filter((one) => one !== line);
    setOwn({ of: plan, lines: [...others.slice(0, index), line, ...others.slice(index)] });
    return true;
  };
  return [lines, move];
};
