import { useCallback, useSyncExternalStore } from "react";
import type { Grid } from "#shared/board/grid.ts";

/** Steps of grids that are heard on this page now; kept apart from the screen, as a step may last a tenth of a second. */
const steps = new Map<Grid, number>();
const listeners = new Set<() => void>();

/** Says which step of which grid is heard now, and of which it is no more; `grid` null = of none. */
export const tellSounding = (before: Grid | null, grid: Grid | null, step: number): void => {
  if (grid === before && (grid === null || steps.get(grid) === step)) return;
  if (before !== null) steps.delete(before);
  if (grid !== null) steps.set(grid, step);
  for (const listener of listeners) listener();
};

const subscribe = (listener: () => void): (() => void) => {
  listeners.add(listener);
  return () => void listeners.delete(listener);
};

/** The step of a grid that is heard now; null = none is. */
export const useSoundingStep = (grid: Grid): number | null =>
  useSyncExternalStore(
    subscribe,
    useCallback(() => steps.get(grid) ?? null, [grid]),
  );
