import { type Card, SIDE_NAMES, type SideName, type StoredSide } from "#shared/board/card.ts";
import type { Grid, Shape } from "#shared/board/grid.ts";
import { gridFault } from "#shared/board/grid-reading.ts";
import { readSide, sideFault } from "#shared/board/sides/detail-sides.ts";
import { describeGrid, describeShape } from "#shared/commands/describe-grid.ts";
import { describeSide } from "#shared/commands/describe-side.ts";
import { tunedShapeFault } from "#shared/music/fretboard.ts";
import { sameDrawn } from "#shared/selectors/grid-draft.ts";
import { type Step, step } from "../use-act.ts";

/** What a detail shows beside its words, while somebody writes it. */
export interface Drawn {
  readonly grid: Grid | null;
  /** The grid as it is on the recording. */
  readonly recordedGrid: Grid | null;
  readonly shape: Shape | null;
  /** Sides that are not here are not written. */
  readonly sides: { readonly [S in SideName]?: StoredSide };
}

export const NOTHING_DRAWN: Drawn = { grid: null, recordedGrid: null, shape: null, sides: {} };

/** What a card shows, ready to be changed. */
export const drawnOn = ({
  grid,
  recordedGrid,
  shape,
  sides = {},
}: Pick<Card, "grid" | "recordedGrid" | "shape" | "sides">): Drawn => ({
  grid: grid ?? null,
  recordedGrid: recordedGrid ?? null,
  shape: shape ?? null,
  sides: Object.fromEntries(
    SIDE_NAMES.flatMap((side) => {
      const value = readSide(side, sides[side]);
      return value === null ? [] : [[side, value]];
    }),
  ),
});

const sameSide = (a: StoredSide | undefined, b: StoredSide | undefined): boolean =>
  JSON.stringify(a) === JSON.stringify(b);

/** True when both show the same. */
export const sameDraft = (a: Drawn, b: Drawn): boolean =>
  sameDrawn(a.grid, b.grid) &&
  sameDrawn(a.recordedGrid, b.recordedGrid) &&
  sameDrawn(a.shape, b.shape) &&
  SIDE_NAMES.every((side) => sameSide(a.sides[side], b.sides[side]));

/** The first thing that cannot be kept, as a sentence; null when all can. */
export const draftFault = ({ grid, recordedGrid, shape, sides }: Drawn): string | null => {
  const faults = [
    grid === null ? null : gridFault(grid),
    recordedGrid === null ? null : gridFault(recordedGrid),
    shape === null ? null : tunedShapeFault(shape),
    ...SIDE_NAMES.map((side) => {
      const value = sides[side];
      return value === undefined ? null : sideFault(side, value);
    }),
  ];
  return faults.find((fault) => fault !== null) ?? null;
};

/** A command on a detail that may not be there yet. */
export type StepOn = (card: string) => Step;

/** The commands that turn `before` into `drawn`; what stays as it is, is not written over somebody else's. */
export const drawingSteps = (before: Drawn, drawn: Drawn, learnAgain: boolean): readonly StepOn[] => {
  const { grid, recordedGrid, shape, sides } = drawn;
  const steps: StepOn[] = [];
  const writeGrid = (written: Grid | null, of: "ours" | "recorded"): StepOn => {
    const grid = written === null ? null : { ...written, rows: written.rows.map((row) => ({ ...row })) };
    return (card) => step(describeGrid, { card, grid, of, learnAgain });
  };
  if (!sameDrawn(grid, before.grid)) steps.push(writeGrid(grid, "ours"));
  if (!sameDrawn(recordedGrid, before.recordedGrid)) steps.push(writeGrid(recordedGrid, "recorded"));
  if (!sameDrawn(shape, before.shape))
    steps.push((card) =>
      step(describeShape, {
        card,
        shape: shape === null ? null : { ...shape, frets: [...shape.frets], fingers: [...shape.fingers] },
        learnAgain,
      }),
    );
  for (const side of SIDE_NAMES)
    if (!sameSide(sides[side], before.sides[side]))
      steps.push((card) => step(describeSide, { card, side, value: sides[side] ?? null, learnAgain }));
  return steps;
};
