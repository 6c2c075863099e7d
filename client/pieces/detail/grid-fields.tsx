import { useState } from "react";
import { useChairs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Choice } from "#client/ui/choice.tsx";
import { Select } from "#client/ui/select.tsx";
import type { Grid } from "#shared/board/grid.ts";
import type { GridSource } from "#shared/music/grid-playback.ts";
import { countingOf, gridWords, rowNames } from "#shared/music/grid-words.ts";
import { type Division, divided, divisionsOf, emptyGrid, lostIn } from "#shared/selectors/grid-draft.ts";
import { DifferenceLines } from "../grid/difference-lines.tsx";
import { AddGridRow } from "./add-grid-row.tsx";
import { GridRows } from "./grid-rows.tsx";

/** A detail's two grids; null = not written. */
export interface WrittenGrids {
  readonly ours: Grid | null;
  readonly recorded: Grid | null;
}

export interface GridFieldsProps {
  readonly grids: WrittenGrids;
  readonly onChange: (grids: WrittenGrids) => void;
  /** As it is written. */
  readonly metre: string;
  /** Chairs of the detail. */
  readonly chairs: readonly string[];
}

const SIDES: readonly { readonly value: GridSource; readonly label: string }[] = [
  { value: "ours", label: "as we play it" },
  { value: "recorded", label: "on the recording" },
];
const OTHER = { ours: "recorded", recorded: "ours" } as const;
const COPY = { ours: "Copy it from the recording", recorded: "Copy it from ours" } as const;

/** Writes the bar a detail is about, as we play it and as it is on the recording. */
export const GridFields = ({ grids, onChange, metre, chairs }: GridFieldsProps) => {
  const all = useChairs();
  const [side, setSide] = useState<GridSource>(
    grids.ours === null && grids.recorded !== null ? "recorded" : "ours",
  );
  const grid = grids[side];
  const other = grids[OTHER[side]];
  const write = (next: Grid | null): void => onChange({ ...grids, [side]: next });
  const begin = (): void => {
    const own = all.filter(({ id }) => chairs.includes(id));
    write(emptyGrid(metre, own.length > 0 ? own : all.slice(0, 1)));
  };
  return (
    <div className="flex flex-col gap-3">
      <Choice label="Which bar" value={side} options={SIDES} onChange={setSide} />
      {grid === null ? (
        <div className="flex flex-wrap gap-3">
          <Button onClick={begin}>Write a grid</Button>
          {other === null ? null : <Button onClick={() => write(other)}>{COPY[side]}</Button>}
        </div>
      ) : (
        <OneGrid key={side} grid={grid} onChange={write} metre={metre} />
      )}
      {grid === null || other === null ? null : (
        <>
          <DifferenceLines {...bothOf(grids, grid)} metre={metre} />
          <div>
            <Button onClick={() => write(other)}>{COPY[side]}</Button>
          </div>
        </>
      )}
    </div>
  );
};

const bothOf = ({ ours, recorded }: WrittenGrids, there: Grid) => ({
  ours: ours ?? there,
  recorded: recorded ?? there,
});

interface OneGridProps {
  readonly grid: Grid;
  readonly onChange: (grid: Grid | null) => void;
  readonly metre: string;
}

const named = ({ steps, perBeat }: Pick<Grid, "steps" | "perBeat">): string => `${steps}/${perBeat}`;

const divisionWords = ({ steps, perBeat, bars }: Division): string =>
  `${steps}, ${perBeat} a beat${bars > 1 ? ", two bars" : ""}`;

const OneGrid = ({ grid, onChange, metre }: OneGridProps) => {
  const all = useChairs();
  // The grid as it was before its steps were changed, for as long as that lost something.
  const [before, setBefore] = useState<{ readonly grid: Grid; readonly lost: string } | null>(null);
  const nameOf = (chair: string): string => all.find(({ id }) => id === chair)?.name ?? "A chair";
  const divisions = divisionsOf(metre);
  const known = divisions.some((one) => named(one) === named(grid));
  const divide = (chosen: string): void => {
    const division = divisions.find((one) => named(one) === chosen);
    if (division === undefined) return;
    const counting = countingOf(grid, metre);
    const names = rowNames(grid, nameOf);
    const lost = lostIn(grid, division).map(({ row, steps }) => {
      const where = steps.map((step) =>
        counting.bars > 1 ? `${counting.nameOf(step)} of bar ${counting.barOf(step)}` : counting.nameOf(step),
      );
      return `${names[grid.rows.indexOf(row)]} ${where.join(", ")}`;
    });
    setBefore(lost.length === 0 ? null : { grid, lost: lost.join("; ") });
    onChange(divided(grid, division));
  };
  return (
    <>
      <Select
        label="Steps"
        value={named(grid)}
        options={[
          ...(known ? [] : [{ value: named(grid), label: `${grid.steps}, ${grid.perBeat} a beat` }]),
          ...divisions.map((division) => ({ value: named(division), label: divisionWords(division) })),
        ]}
        onChange={divide}
      />
      <div role="status">
        {before === null ? null : (
          <div className="border-l-2 border-accent pl-3">
            <p>These notes have no step any more and are left out: {before.lost}.</p>
            <Button
              onClick={() => {
                onChange(before.grid);
                setBefore(null);
              }}
            >
              Back to {before.grid.steps} steps
            </Button>
          </div>
        )}
      </div>
      <GridRows grid={grid} metre={metre} nameOf={nameOf} onChange={onChange} />
      <p className="caption">{gridWords(grid, metre, nameOf)}</p>
      <AddGridRow grid={grid} onChange={onChange} />
      <div>
        <Button tone="quiet" onClick={() => onChange(null)}>
          Take the grid off
        </Button>
      </div>
    </>
  );
};
