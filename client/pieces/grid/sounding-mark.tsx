import { useMediaQuery } from "#client/ui/use-media-query.ts";
import type { Grid } from "#shared/board/grid.ts";
import { useSoundingStep } from "./sounding-step.ts";

export interface SoundingMarkProps {
  readonly grid: Grid;
  /** Steps that this line of the drawing has: the first, and the one behind the last. */
  readonly from: number;
  readonly to: number;
  readonly xOf: (step: number) => number;
  readonly y: number;
  readonly width: number;
}

/**
 * A short line over the step that is heard. Small on purpose: it stays far under the area that may flash (WCAG 2.3.1). With
 * reduced motion there is none.
 */
export const SoundingMark = ({ grid, from, to, xOf, y, width }: SoundingMarkProps) => {
  const step = useSoundingStep(grid);
  const still = useMediaQuery("(prefers-reduced-motion: reduce)");
  if (step === null || still || step < from || step >= to) return null;
  return (
    <path
      data-sounding={step}
      d={`M${xOf(step) + 1} ${y}h${width - 2}`}
      stroke="currentColor"
      strokeWidth={3}
      className="no-print"
    />
  );
};
