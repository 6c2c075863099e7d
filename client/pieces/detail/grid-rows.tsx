import { type KeyboardEvent, useId, useRef, useState } from "react";
import { Button } from "#client/ui/button.tsx";
import { classNames } from "#client/ui/class-names.ts";
import { type Grid, type GridRow, isHit, rowKey } from "#shared/board/grid.ts";
import { canHold, hitAt, nextHit } from "#shared/board/grid-reading.ts";
import { type Counting, countingOf, HIT_WORDS, rowNames } from "#shared/music/grid-words.ts";
import { withHit, withoutRow, withShift } from "#shared/selectors/grid-draft.ts";
import { HitMark } from "../grid/hit-mark.tsx";

export interface GridRowsProps {
  readonly grid: Grid;
  /** As it is written. */
  readonly metre: string;
  readonly nameOf: (chair: string) => string;
  /** Null once the last row is left out. */
  readonly onChange: (grid: Grid | null) => void;
}

/** Where one stands; step −1 = the row's name. */
type Place = readonly [row: number, step: number];

const ARROWS: Readonly<Record<string, Place>> = {
  ArrowLeft: [0, -1],
  ArrowRight: [0, 1],
  ArrowUp: [-1, 0],
  ArrowDown: [1, 0],
};
const ERASE: ReadonlySet<string> = new Set(["Delete", "Backspace"]);

const within = (n: number, low: number, high: number): number => Math.min(high, Math.max(low, n));

/**
 * A bar step by step, as a grid of the APG: a tap or the space bar goes round rest, hit, accent, ghost, held; a typed sign
 * is written and moves on; arrows, Home and End move.
 */
export const GridRows = ({ grid, metre, nameOf, onChange }: GridRowsProps) => {
  const [at, setAt] = useState<Place>([0, 0]);
  const [said, setSaid] = useState("");
  const root = useRef<HTMLDivElement>(null);
  const hint = useId();
  const { steps, rows } = grid;
  // Where the focus was may be gone with its row or its step.
  const row = Math.min(at[0], rows.length - 1);
  const stop: Place = [row, Math.min(at[1], steps - 1)];
  const names = rowNames(grid, nameOf);
  const counting = countingOf(grid, metre);
  const active = rows[row];

  const go = ([toRow, toStep]: Place): void => {
    const selector = `[data-row="${within(toRow, 0, rows.length - 1)}"][data-step="${within(toStep, -1, steps - 1)}"]`;
    root.current?.querySelector<HTMLElement>(selector)?.focus();
  };
  const write = (of: GridRow, step: number, sign: string): void => {
    if (!isHit(sign)) return;
    const loose = sign === "-" && !canHold(of.hits, step);
    setSaid(
      loose ? `Nothing sounds before ${counting.nameOf(step)} that could be held: it stays a rest.` : "",
    );
    onChange(withHit(grid, of, step, loose ? "." : sign));
  };
  const press = (event: KeyboardEvent<HTMLElement>): void => {
    const target = event.target instanceof HTMLElement ? event.target.dataset : {};
    if (target.step === undefined || event.altKey || event.metaKey) return;
    const [r, step] = [Number(target.row), Number(target.step)];
    const by = ARROWS[event.key];
    const of = rows[r];
    const sign = ERASE.has(event.key) ? "." : event.key;
    if (by !== undefined) go([r + by[0], step + by[1]]);
    else if (event.key === "Home") go([event.ctrlKey ? 0 : r, 0]);
    else if (event.key === "End") go([event.ctrlKey ? rows.length - 1 : r, steps - 1]);
    else if (isHit(sign) && of !== undefined && step >= 0 && !event.ctrlKey) {
      write(of, step, sign);
      if (event.key === "Backspace") go([r, Math.max(0, step - 1)]);
      else if (step < steps - 1) go([r, step + 1]);
    } else return;
    event.preventDefault();
  };

  return (
    <div>
      {/* biome-ignore lint/a11y/useSemanticElements: a table cannot break its lines at the beats */}
      <div
        ref={root}
        role="grid"
        aria-label="The bar, step by step"
        aria-describedby={hint}
        aria-rowcount={rows.length}
        aria-colcount={steps + 1}
        tabIndex={-1}
        onKeyDown={press}
        className="flex flex-col gap-3"
      >
        {rows.map((one, r) => (
          <Row
            key={rowKey(one)}
            row={one}
            index={r}
            name={names[r] ?? ""}
            grid={grid}
            counting={counting}
            stop={stop}
            onReach={setAt}
            onWrite={(step) => write(one, step, nextHit(one.hits, step))}
          />
        ))}
      </div>
      {active === undefined ? null : (
        <fieldset className="mt-2 flex flex-wrap items-center gap-2">
          <legend className="caption">Row {names[row]}</legend>
          <Button onClick={() => onChange(withShift(grid, active, -1))}>one step earlier</Button>
          <Button onClick={() => onChange(withShift(grid, active, 1))}>one step later</Button>
          <Button tone="quiet" onClick={() => onChange(withoutRow(grid, active))}>
            leave it out
          </Button>
        </fieldset>
      )}
      <p role="status">{said}</p>
      <p id={hint} className="caption">
        Tap a step to go round rest, hit, accent, ghost and held. On a keyboard: x hit, X accent, o ghost, -
        held, . rest; arrows, Home and End move.
      </p>
    </div>
  );
};

interface RowProps {
  readonly row: GridRow;
  readonly index: number;
  readonly name: string;
  readonly grid: Grid;
  readonly counting: Counting;
  readonly stop: Place;
  readonly onReach: (place: Place) => void;
  readonly onWrite: (step: number) => void;
}

const Row = ({ row, index, name, grid, counting, stop, onReach, onWrite }: RowProps) => {
  const { steps, perBeat } = grid;
  const beats = Array.from({ length: steps / perBeat }, (_, beat) => beat * perBeat);
  const tabIndex = (step: number): number => (stop[0] === index && stop[1] === step ? 0 : -1);
  return (
    // biome-ignore lint/a11y/useSemanticElements: as above
    // biome-ignore lint/a11y/useFocusableInteractive: its cells are
    <div role="row" aria-rowindex={index + 1} className="min-w-0">
      {/* biome-ignore lint/a11y/useSemanticElements: as above */}
      <div role="rowheader" aria-colindex={1} tabIndex={-1}>
        <button
          type="button"
          data-row={index}
          data-step={-1}
          tabIndex={tabIndex(-1)}
          onFocus={() => onReach([index, -1])}
          onClick={() => onReach([index, -1])}
          className={classNames(
            "min-h-12 min-w-24 text-left font-semibold",
            stop[0] === index && "underline decoration-2 underline-offset-4",
          )}
        >
          {name}
        </button>
      </div>
      <div role="presentation" className="flex flex-wrap gap-x-3 gap-y-2">
        {beats.map((beat) => (
          <div key={beat} role="presentation" className="flex flex-wrap border-l border-control">
            {Array.from({ length: perBeat }, (_, i) => beat + i).map((step) => {
              const hit = hitAt(row, step);
              const bar = counting.bars > 1 ? `bar ${counting.barOf(step)}, ` : "";
              return (
                // biome-ignore lint/a11y/useSemanticElements: as above
                // biome-ignore lint/a11y/useFocusableInteractive: the button inside is
                <div key={step} role="gridcell" aria-colindex={step + 2}>
                  <button
                    type="button"
                    data-row={index}
                    data-step={step}
                    tabIndex={tabIndex(step)}
                    aria-label={`${name}, ${bar}${counting.nameOf(step)}: ${HIT_WORDS[hit]}`}
                    onFocus={() => onReach([index, step])}
                    onClick={() => onWrite(step)}
                    className="flex h-14 w-11 flex-col items-center justify-end border-y border-r border-line pb-1 hover:bg-raised"
                  >
                    <svg aria-hidden="true" viewBox="0 0 24 28" width={24} height={28}>
                      <HitMark hit={hit} x={12} y={18} />
                    </svg>
                    <span aria-hidden="true" className="text-small leading-none text-quiet">
                      {counting.nameOf(step).split(" ").at(-1)}
                    </span>
                  </button>
                </div>
              );
            })}
          </div>
        ))}
      </div>
    </div>
  );
};
