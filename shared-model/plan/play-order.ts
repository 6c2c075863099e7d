/** In which order an evening's songs are played. */
import type { Id } from "../board/ids.ts";
import type { PlanLine } from "./evening-plan.ts";

const take = (from: PlanLine[], worth: (line: PlanLine) => number): PlanLine | undefined => {
  let best: PlanLine | undefined;
  for (const line of from)
    if (
      best === undefined ||
      worth(line) > worth(best) ||
      (worth(line) === worth(best) && line.song < best.song)
    )
      best = line;
  if (best !== undefined) from.splice(from.indexOf(best), 1);
  return best;
};

const runsLast = (line: PlanLine): number => (line.block.runs > 0 ? 1 : 0) + line.after;

/**
 * The best-known song first, the hardest second while everybody is fresh, a strong run last; between them by tuning, the
 * harder ones first. Songs stay in their stretch of the evening. Common practice, no published source.
 */
export const inPlayingOrder = (
  lines: readonly PlanLine[],
  tuningOf: (song: Id) => string,
): readonly PlanLine[] => {
  const stretches = [...new Set(lines.map(({ phase }) => phase))].sort((a, b) => a - b);
  const ordered: PlanLine[] = [];
  for (const phase of stretches) {
    const left = lines.filter((line) => line.phase === phase);
    const opens = ordered.length === 0;
    const first = opens ? take(left, ({ today }) => today) : undefined;
    const second = opens ? take(left, ({ today }) => -today) : undefined;
    const last = phase === stretches.at(-1) ? take(left, runsLast) : undefined;
    // The tuning that is up already goes on.
    const tuning = tuningOf(second?.song ?? first?.song ?? ordered.at(-1)?.song ?? "");
    left.sort((a, b) => {
      const [ours, theirs] = [tuningOf(a.song), tuningOf(b.song)];
      if (ours !== theirs) return ours === tuning ? -1 : theirs === tuning ? 1 : ours < theirs ? -1 : 1;
      return a.today - b.today || (a.song < b.song ? -1 : 1);
    });
    ordered.push(...[first, second, ...left, last].filter((line) => line !== undefined));
  }
  return ordered;
};
