import { useChairs } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { later } from "#client/ui/later.tsx";
import type { SongFile } from "#shared/board/board.ts";
import type { Card } from "#shared/board/card.ts";
import { type Grid, type GridRow, rowKey } from "#shared/board/grid.ts";
import { rowNames } from "#shared/music/grid-words.ts";
import { gridCount } from "#shared/selectors/grid-study/grid-count.ts";
import { lockWords } from "#shared/selectors/grid-study/lock-words.ts";
import { numbersOf, WRITTEN_ONLY } from "#shared/selectors/grid-study/numbers.ts";
import { DifferenceLines } from "./difference-lines.tsx";

const PlayGrid = later(async () => (await import("./play-grid.tsx")).PlayGrid, "min-h-48");

export interface GridStudyProps {
  readonly card: Pick<Card, "grid" | "recordedGrid" | "where">;
  readonly song: SongFile;
}

/** What there is to know of a detail's grids: how they differ, how the parts lock, how they sound, their numbers. */
export const GridStudy = ({ card, song }: GridStudyProps) => {
  const chairs = useChairs();
  const nameOf = (chair: string): string => chairs.find(({ id }) => id === chair)?.name ?? "A chair";
  const { grid, recordedGrid } = card;
  const { metre, tempo } = gridCount(song, card);
  const shown = grid ?? recordedGrid;
  if (shown === undefined) return null;
  const lock = lockWords(shown, metre, nameOf);
  return (
    <div className="pb-2">
      {grid === undefined || recordedGrid === undefined ? null : (
        <DifferenceLines ours={grid} recorded={recordedGrid} metre={metre} />
      )}
      <div className="no-print">
        {lock.length === 0 ? null : (
          <dl aria-label="With the kick" className="caption">
            {lock.map(({ name, words }) => (
              <div key={name}>
                <dt className="inline font-semibold">{name}: </dt>
                <dd className="inline">{words}.</dd>
              </div>
            ))}
          </dl>
        )}
        <Accordion summary="Listen to it">
          <PlayGrid grid={grid} recorded={recordedGrid} metre={metre} tempo={tempo} />
        </Accordion>
        <Accordion summary="Numbers" className="border-b-0">
          <Numbers grid={shown} beside={grid === undefined ? undefined : recordedGrid} nameOf={nameOf} />
        </Accordion>
      </div>
    </div>
  );
};

interface NumbersProps {
  readonly grid: Grid;
  /** The recording's, where `grid` is ours. */
  readonly beside: Grid | undefined;
  readonly nameOf: (chair: string) => string;
}

const Numbers = ({ grid, beside, nameOf }: NumbersProps) => {
  const names = rowNames(grid, nameOf);
  const besides = (row: GridRow): ReadonlyMap<string, string> => {
    const other = beside?.rows.find((one) => rowKey(one) === rowKey(row));
    if (beside === undefined || other === undefined) return new Map();
    return new Map(numbersOf(other, beside).map(({ label, value }) => [label, value]));
  };
  return (
    <div className="py-2">
      <p className="caption">{WRITTEN_ONLY}</p>
      {grid.rows.map((row, i) => {
        const recorded = besides(row);
        return (
          <Accordion key={rowKey(row)} summary={names[i]}>
            <dl className="pb-2">
              {numbersOf(row, grid).map(({ label, value, says }) => (
                <div key={label} className="border-t border-line py-1">
                  <dt className="inline">{label}: </dt>
                  <dd className="inline">
                    <span className="font-semibold tabular-nums">
                      {value}
                      {recorded.has(label) ? `; on the recording ${recorded.get(label)}` : ""}.
                    </span>{" "}
                    <span className="caption">{says}</span>
                  </dd>
                </div>
              ))}
            </dl>
          </Accordion>
        );
      })}
    </div>
  );
};
