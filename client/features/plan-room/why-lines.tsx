import { useNames } from "#client/pieces/use-names.ts";
import type { SongFile } from "#shared/board/board.ts";
import type { PlanLine } from "#shared/plan/evening-plan.ts";
import { listed } from "#shared/readiness/names.ts";
import { GATE_WORDS } from "#shared/selectors/gate-lines.ts";
import { becauseWords } from "#shared/selectors/plan-words.ts";
import { pointsOf } from "#shared/selectors/points.ts";

export interface WhyProps {
  readonly file: SongFile;
  readonly line: PlanLine;
}

/** Why a song is in the plan: what gains, which gate it can clear, who is missing. */
export const WhyLines = ({ file, line }: WhyProps) => {
  const names = useNames();
  const gains = becauseWords(file, line, names);
  return (
    <>
      {gains === "" ? null : <p className="caption">Gains most: {gains}</p>}
      {line.clears.length === 0 ? null : (
        <p className="caption">
          Can clear: <strong>{listed(line.clears.map((gate) => GATE_WORDS[gate]))}</strong>
        </p>
      )}
      {line.missing.length === 0 ? null : (
        <p className="caption text-accent">Without {listed(line.missing.map(names.member))}</p>
      )}
    </>
  );
};

/** The song on the night: if nothing is done, and what is to be expected after this. */
export const Forecast = ({ line: { before, after } }: Pick<WhyProps, "line">) => (
  <>
    <span className="whitespace-nowrap">
      {pointsOf(before)} → <span className="font-semibold laptop:text-title">{pointsOf(after)}</span> %{" "}
    </span>
    <span className="caption laptop:block">on the night</span>
  </>
);
