/** What we play otherwise than the recording, row by row: where notes stand, how they are struck, how long they last. */
import { type Grid, type GridRow, type Hit, rowKey } from "../../board/grid.ts";
import { hitAt } from "../../board/grid-reading.ts";
import { lengthAt } from "../grid-words.ts";
import { compareBars, type Difference } from "./difference.ts";
import { onSameSteps, patternOf } from "./grid-rows.ts";
import { mod } from "./pattern.ts";

export type RowChange =
  | Difference
  /** A note of both, struck otherwise. */
  | { readonly of: "stroke"; readonly step: number; readonly recorded: Hit; readonly ours: Hit }
  /** A note of both, held longer (in steps) than on the recording; negative = shorter. */
  | { readonly of: "length"; readonly step: number; readonly longer: number };

export interface RowDifference {
  readonly row: Pick<GridRow, "chair" | "voice">;
  /** Which of the grids has the row. */
  readonly on: "both" | "ours" | "recorded";
  /** Notes on the recording. */
  readonly notes: number;
  /** In the order of steps; empty = the same, or on one side only. */
  readonly changes: readonly RowChange[];
}

export interface GridDifference {
  /** Steps that both are compared on, and how many of them make a beat. */
  readonly steps: number;
  readonly perBeat: number;
  /** In the order of our rows, those of the recording alone at the end. */
  readonly rows: readonly RowDifference[];
}

const rowChanges = (recorded: GridRow, ours: GridRow): readonly RowChange[] => {
  const target = patternOf(recorded);
  const { differences } = compareBars(target, patternOf(ours));
  const moves = new Map(differences.flatMap((one) => (one.of === "moved" ? [[one.step, one.late]] : [])));
  const gone = new Set(differences.flatMap(({ of, step }) => (of === "missing" ? [step] : [])));
  const kept = target.onsets.filter((step) => !gone.has(step));
  const struck = kept.flatMap((step): readonly RowChange[] => {
    const at = mod(step + (moves.get(step) ?? 0), target.steps);
    const [there, here] = [hitAt(recorded, step), hitAt(ours, at)];
    const longer = lengthAt(ours, at) - lengthAt(recorded, step);
    return [
      ...(there === here ? [] : [{ of: "stroke", step, recorded: there, ours: here } as const]),
      ...(longer === 0 ? [] : [{ of: "length", step, longer } as const]),
    ];
  });
  return [...differences, ...struck].sort((a, b) => a.step - b.step);
};

/** Compares our grid with the recording's, which is the target. Null where their lengths do not fit each other. */
export const gridDifference = (recorded: Grid, ours: Grid): GridDifference | null => {
  const both = onSameSteps(recorded, ours);
  if (both === null) return null;
  const [target, played] = both;
  const find = ({ rows }: Grid, key: string): GridRow | undefined => rows.find((row) => rowKey(row) === key);
  const rows = played.rows.map((row): RowDifference => {
    const wanted = find(target, rowKey(row));
    return wanted === undefined
      ? { row, on: "ours", notes: 0, changes: [] }
      : { row, on: "both", notes: patternOf(wanted).onsets.length, changes: rowChanges(wanted, row) };
  });
  const left = target.rows.filter((row) => find(played, rowKey(row)) === undefined);
  return {
    steps: target.steps,
    perBeat: target.perBeat,
    rows: [
      ...rows,
      ...left.map(
        (row): RowDifference => ({
          row,
          on: "recorded",
          notes: patternOf(row).onsets.length,
          changes: [],
        }),
      ),
    ],
  };
};
