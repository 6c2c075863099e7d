import X from "lucide-react/icons/x";
import { type KeyboardEvent, useState } from "react";
import { HitMark } from "#client/pieces/grid-view.tsx";
import { useChairs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { IconButton } from "#client/ui/icon-button.tsx";
import { Select } from "#client/ui/select.tsx";
import type { Grid } from "#shared/board/grid.ts";
import { hitAt, nextHit } from "#shared/board/grid-reading.ts";
import { countingOf, gridWords, HIT_WORDS } from "#shared/music/grid-words.ts";
import {
  divided,
  divisionsOf,
  emptyGrid,
  withHit,
  withoutRow,
  withRow,
} from "#shared/selectors/grid-draft.ts";

export interface GridFieldsProps {
  readonly grid: Grid | null;
  readonly onChange: (grid: Grid | null) => void;
  /** As the song has it. */
  readonly metre: string;
  /** Chairs of the detail. */
  readonly chairs: readonly string[];
}

const ARROWS: Readonly<Record<string, readonly [row: number, step: number]>> = {
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
};

const NONE = "";

/** Writes a bar step by step: a tap, or the space bar, goes round rest, hit, accent, ghost; arrows move. */
export const GridFields = ({ grid, onChange, metre, chairs }: GridFieldsProps) => {
  const all = useChairs();
  if (grid === null)
    return (
      <Button
        onClick={() =>
          onChange(
            emptyGrid(
              metre,
              chairs.length > 0 ? all.filter(({ id }) => chairs.includes(id)) : all.slice(0, 1),
            ),
          )
        }
      >
        Write a grid
      </Button>
    );
  const nameOf = (chair: string): string => all.find(({ id }) => id === chair)?.name ?? "A chair";
  const missing = all.filter(({ id }) => !grid.rows.some(({ chair }) => chair === id));
  const divisions = divisionsOf(metre);
  const known = divisions.some(({ steps, perBeat }) => steps === grid.steps && perBeat === grid.perBeat);
  const named = ({ steps, perBeat }: Pick<Grid, "steps" | "perBeat">): string => `${steps}/${perBeat}`;
  return (
    <div className="flex flex-col gap-3">
      <Select
        label="Steps"
        value={named(grid)}
        options={[
          ...(known ? [] : [{ value: named(grid), label: `${grid.steps}, ${grid.perBeat} a beat` }]),
          ...divisions.map((division) => ({
            value: named(division),
            label: `${division.steps}, ${division.perBeat} a beat${division.bars > 1 ? ", two bars" : ""}`,
          })),
        ]}
        onChange={(chosen) => {
          const division = divisions.find((one) => named(one) === chosen);
          if (division !== undefined) onChange(divided(grid, division));
        }}
      />
      <Rows grid={grid} metre={metre} nameOf={nameOf} onChange={onChange} />
      <p className="caption">{gridWords(grid, metre, nameOf)}</p>
      {missing.length === 0 ? null : (
        <Select
          label="Add a row for"
          value={NONE}
          options={[
            { value: NONE, label: "choose a chair", disabled: true },
            ...missing.map(({ id, name }) => ({ value: id, label: name })),
          ]}
          onChange={(chair) => onChange(withRow(grid, { chair }))}
        />
      )}
      <div>
        <Button tone="quiet" onClick={() => onChange(null)}>
          Take the grid off
        </Button>
      </div>
    </div>
  );
};

interface RowsProps {
  readonly grid: Grid;
  readonly metre: string;
  readonly nameOf: (chair: string) => string;
  readonly onChange: (grid: Grid | null) => void;
}

const Rows = ({ grid, metre, nameOf, onChange }: RowsProps) => {
  const [at, setAt] = useState<readonly [row: number, step: number]>([0, 0]);
  const counting = countingOf(grid, metre);
  const { steps, perBeat, rows } = grid;
  // Where the focus was may be gone with its row or its step.
  const stop = [Math.min(at[0], rows.length - 1), Math.min(at[1], steps - 1)] as const;
  const beats = Array.from({ length: steps / perBeat }, (_, beat) => beat * perBeat);
  const move = (event: KeyboardEvent<HTMLElement>): void => {
    const by = ARROWS[event.key];
    if (by === undefined || !(event.target instanceof HTMLElement) || event.target.dataset.step === undefined)
      return;
    event.preventDefault();
    const row = Math.min(rows.length - 1, Math.max(0, Number(event.target.dataset.row) + by[0]));
    const step = Math.min(steps - 1, Math.max(0, Number(event.target.dataset.step) + by[1]));
    event.currentTarget.querySelector<HTMLElement>(`[data-row="${row}"][data-step="${step}"]`)?.focus();
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: the arrow keys of the buttons inside
    <div onKeyDown={move} className="flex flex-col gap-3">
      {rows.map((row, r) => (
        <fieldset key={row.chair} className="min-w-0">
          <legend className="float-left flex min-h-12 items-center font-semibold">{nameOf(row.chair)}</legend>
          <div className="flex justify-end">
            <IconButton
              icon={X}
              label={`Leave out the row of ${nameOf(row.chair)}`}
              onClick={() => onChange(withoutRow(grid, row))}
            />
          </div>
          <div className="clear-both flex flex-wrap gap-x-3 gap-y-2">
            {beats.map((beat) => (
              <div key={beat} className="flex border-l border-control">
                {Array.from({ length: perBeat }, (_, i) => beat + i).map((step) => {
                  const hit = hitAt(row, step);
                  const bar = counting.bars > 1 ? `bar ${counting.barOf(step)}, ` : "";
                  return (
                    <button
                      key={step}
                      type="button"
                      data-row={r}
                      data-step={step}
                      tabIndex={stop[0] === r && stop[1] === step ? 0 : -1}
                      aria-label={`${nameOf(row.chair)}, ${bar}${counting.nameOf(step)}: ${HIT_WORDS[hit]}`}
                      onFocus={() => setAt([r, step])}
                      onClick={() => onChange(withHit(grid, row, step, nextHit(row.hits, step)))}
                      className="flex h-14 w-11 flex-col items-center justify-end border-y border-r border-line pb-1 hover:bg-raised"
                    >
                      <svg aria-hidden="true" viewBox="0 0 24 28" width={24} height={28}>
                        <HitMark hit={hit} x={12} y={18} />
                      </svg>
                      <span aria-hidden="true" className="text-small leading-none text-quiet">
                        {counting.nameOf(step).split(" ").at(-1)}
                      </span>
                    </button>
                  );
                })}
              </div>
            ))}
          </div>
        </fieldset>
      ))}
    </div>
  );
};
