import { useChairs } from "#client/store/hooks.ts";
import type { Chair } from "#shared/board/band.ts";
import { type Grid, type GridRow, rowKey } from "#shared/board/grid.ts";
import { hitAt } from "#shared/board/grid-reading.ts";
import { type Counting, countingOf, gridWords, voiceName } from "#shared/music/grid-words.ts";
import { marksOf } from "#shared/music/rhythm/grid-rows.ts";
import { HitMark } from "./grid/hit-mark.tsx";
import { SoundingMark } from "./grid/sounding-mark.tsx";

export interface GridViewProps {
  readonly grid: Grid;
  /** As the song has it. */
  readonly metre: string;
  /** Stands over it, where it is one of two. */
  readonly title?: string;
  /** To be read from where one plays: fewer steps on a line, twice as big. */
  readonly large?: boolean;
}

/** Units of the drawing: one step, one row, the line of counts over them, the names before them. */
const STEP = 20;
const ROW = 30;
const HEAD = 18;
const NAME = 42;
/** Steps on a line that is read from afar. */
const FEW = 8;

interface LineOfSteps {
  readonly from: number;
  readonly to: number;
}

/** Bar by bar; from afar in as many whole beats as make few steps. */
const linesOf = ({ steps, perBeat }: Grid, counting: Counting, large: boolean): readonly LineOfSteps[] => {
  const perBar = Math.ceil(steps / counting.bars);
  const few = Math.max(perBeat, Math.floor(FEW / perBeat) * perBeat);
  const lines: LineOfSteps[] = [];
  for (let bar = 0; bar < steps; bar += perBar) {
    const end = Math.min(steps, bar + perBar);
    const most = large ? few : perBar;
    for (let from = bar; from < end; from += most) lines.push({ from, to: Math.min(end, from + most) });
  }
  return lines;
};

interface StepsProps extends LineOfSteps {
  readonly grid: Grid;
  readonly counting: Counting;
  readonly shortOf: (row: GridRow) => string;
  readonly large: boolean;
}

const Steps = ({ grid, counting, shortOf, from, to, large }: StepsProps) => {
  const width = NAME + (to - from) * STEP + 2;
  const height = HEAD + grid.rows.length * ROW + 2;
  const steps = Array.from({ length: to - from }, (_, i) => from + i);
  const marks = marksOf(grid);
  const xOf = (step: number): number => NAME + (step - from) * STEP;
  return (
    <svg
      aria-hidden="true"
      viewBox={`0 0 ${width} ${height}`}
      width={width * (large ? 2 : 1)}
      className="block h-auto max-w-full text-ink"
    >
      {steps.map((step) => {
        const onBeat = step % grid.perBeat === 0;
        return (
          <g key={step}>
            {onBeat ? (
              <>
                <path d={`M${xOf(step)} ${HEAD}v${grid.rows.length * ROW}`} className="stroke-control" />
                <text x={xOf(step) + STEP / 2} y={12} textAnchor="middle" className="fill-quiet text-[13px]">
                  {counting.nameOf(step)}
                </text>
              </>
            ) : null}
          </g>
        );
      })}
      <SoundingMark grid={grid} from={from} to={to} xOf={xOf} y={HEAD - 1} width={STEP} />
      {grid.rows.map((row, i) => (
        <g key={rowKey(row)}>
          <path d={`M0 ${HEAD + (i + 1) * ROW}H${width}`} className="stroke-line" />
          <text x={0} y={HEAD + i * ROW + 21} className="fill-current text-[13px]">
            {shortOf(row)}
          </text>
          {steps.map((step) => (
            <HitMark
              key={step}
              hit={hitAt(row, step)}
              x={xOf(step) + STEP / 2}
              y={HEAD + i * ROW + 17}
              mark={marks.get(rowKey(row))?.get(step)}
            />
          ))}
        </g>
      ))}
    </svg>
  );
};

const shortName = (chairs: readonly Chair[], { chair: id, voice }: GridRow): string => {
  if (voice !== undefined) return voiceName(voice);
  const chair = chairs.find((one) => one.id === id);
  return chair?.short || chair?.name.slice(0, 4) || "?";
};

/** A detail's grid: steps by beat, a row for each chair. Read out as one counts it. */
export const GridView = ({ grid, metre, title, large = false }: GridViewProps) => {
  const chairs = useChairs();
  const counting = countingOf(grid, metre);
  const nameOf = (chair: string): string => chairs.find(({ id }) => id === chair)?.name ?? "A chair";
  return (
    <figure className="my-2 break-inside-avoid">
      <figcaption className="caption">
        {title}
        <span className="sr-only">
          {title === undefined ? "" : ": "}
          {gridWords(grid, metre, nameOf)}
        </span>
      </figcaption>
      {linesOf(grid, counting, large).map((line) => (
        <Steps
          key={line.from}
          {...line}
          grid={grid}
          counting={counting}
          shortOf={(row) => shortName(chairs, row)}
          large={large}
        />
      ))}
    </figure>
  );
};
