import type { Settings } from "../board/settings.ts";
import type { EventSource } from "./evidence.ts";
import { cleanEvent, qualityOf, slipEvent, type UnitEvent } from "./log.ts";
import type { SongPlan } from "./plan.ts";
import type { Events } from "./weigh.ts";

/**
 * Events for the band together: whole runs and gigs with at least half of the needed chairs.
 * Clean counts the needed players of this line-up who were there; an empty needed chair counts as absent,
 * so filling it can only help. A stop, or a slip nobody could place, is asked of the chairs that were taken,
 * by whomever: otherwise putting somebody on an empty chair could make an old stop count and lower the score.
 */
export const bandEvents = (plan: SongPlan, source: EventSource, settings: Settings): Events => {
  const needed = plan.parts.flatMap((part, column) => (part.needed ? [column] : []));
  const events: UnitEvent[] = [];
  if (needed.length === 0) return { list: events, count: 0 };
  const { taken, held } = source.attendance;
  for (const { take, place, unattributed } of source.log) {
    if ((take.kind !== "run" && take.kind !== "gig") || take.scope.of !== "whole") continue;
    const severity = Math.max(unattributed, take.feel === "stopped" ? 1 : 0);
    const there = severity > 0 ? taken : held;
    let counted = 0;
    for (const column of needed) if (there(place, column)) counted++;
    const share = counted / needed.length;
    if (share < 0.5) continue;
    events.push(
      severity > 0
        ? slipEvent(take, take.kind, severity)
        : cleanEvent(take, take.kind, share * share * qualityOf(take), settings),
    );
  }
  return { list: events, count: events.length };
};
