import type { RoomPlan } from "#shared/plan/evening-plan.ts";
import { listed } from "#shared/readiness/names.ts";
import { minutesWord } from "#shared/selectors/plan-words.ts";
import type { Evening } from "./use-evening.ts";

export interface MustsLeftOutProps {
  readonly plan: RoomPlan;
  readonly evening: Evening;
  readonly title: (song: string) => string;
}

/** Musts that are not in the plan, why, and what would help. */
export const MustsLeftOut = ({ plan, evening, title }: MustsLeftOutProps) => {
  const { pins } = evening.evening;
  const musts = [...pins].flatMap(([song, pin]) =>
    pin === "must" && evening.ask().board.songs.has(song) ? [song] : [],
  );
  const left = musts.filter((song) => !plan.lines.some((line) => line.song === song));
  const tooLong = left.filter((song) => plan.refused.includes(song));
  const unplayed = left.filter((song) => !plan.refused.includes(song));
  const fitting = plan.lines.filter(({ song }) => musts.includes(song));
  if (left.length === 0) return null;
  return (
    <div role="status" className="mt-4 border-l-4 border-accent py-1 pl-4">
      {tooLong.length === 0 ? null : (
        <p>
          <strong>Does not fit: {listed(tooLong.map(title))}.</strong>{" "}
          {fitting.length === 0
            ? "The minutes are too few for any must. "
            : `What fits of the musts: ${listed(fitting.map(({ song, block }) => `${title(song)} (${minutesWord(block.minutes)})`))}. `}
          Book more minutes, or take “must tonight” off one of them.
        </p>
      )}
      {unplayed.length === 0 ? null : (
        <p>
          <strong>Nobody who plays it is here: {listed(unplayed.map(title))}.</strong> Say above who comes, or
          take “must tonight” off it.
        </p>
      )}
    </div>
  );
};
