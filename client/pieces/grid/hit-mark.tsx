import type { Hit } from "#shared/board/grid.ts";
import type { StepMark } from "#shared/music/rhythm/grid-rows.ts";

export interface HitMarkProps {
  readonly hit: Hit;
  readonly x: number;
  readonly y: number;
  /** What it is to the kick and the beat; absent = nothing to mark. */
  readonly mark?: StepMark | undefined;
}

/**
 * A filled head for a hit, a wedge over it for an accent, a small head in brackets for a ghost, a bar that goes on for a held
 * step, a short line for a rest. With the kick it wears a ring, ahead of the beat an arrow under it.
 */
export const HitMark = ({ hit, x, y, mark }: HitMarkProps) => {
  if (hit === ".") return <path d={`M${x - 2.5} ${y}h5`} className="stroke-control" strokeWidth={1.5} />;
  if (hit === "-") return <path d={`M${x - 13} ${y}h20`} stroke="currentColor" strokeWidth={3} />;
  return (
    <g fill="none" stroke="currentColor" strokeWidth={1.25}>
      <circle cx={x} cy={y} r={hit === "o" ? 2.5 : 5.5} fill="currentColor" stroke="none" />
      {hit === "o" ? <path d={`M${x - 5} ${y - 5}q-3 5 0 10M${x + 5} ${y - 5}q3 5 0 10`} /> : null}
      {hit === "X" ? (
        <path d={`M${x - 5} ${y - 15}l10 3l-10 3`} strokeWidth={1.75} strokeLinejoin="round" />
      ) : null}
      {mark?.withKick ? <circle cx={x} cy={y} r={8.5} /> : null}
      {mark?.push ? <path d={`M${x + 6} ${y + 11}h-11m3 -2.5l-3 2.5l3 2.5`} /> : null}
    </g>
  );
};
