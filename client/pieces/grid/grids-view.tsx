import type { SongFile } from "#shared/board/board.ts";
import type { Card } from "#shared/board/card.ts";
import type { Grid } from "#shared/board/grid.ts";
import { marksOf } from "#shared/music/rhythm/grid-rows.ts";
import { gridCount } from "#shared/selectors/grid-study/grid-count.ts";
import { GridView } from "../grid-view.tsx";

export interface GridsViewProps {
  readonly card: Pick<Card, "grid" | "recordedGrid" | "where">;
  readonly song: SongFile;
  /** To be read from where one plays: ours alone, unless there is none. */
  readonly large?: boolean;
}

/** A detail's grid; with the recording's under it where both are written. */
export const GridsView = ({ card, song, large = false }: GridsViewProps) => {
  const { grid, recordedGrid } = card;
  const { metre } = gridCount(song, card);
  const recorded = large && grid !== undefined ? undefined : recordedGrid;
  return (
    <>
      {grid === undefined ? null : (
        <GridView
          grid={grid}
          metre={metre}
          large={large}
          {...(recorded === undefined ? {} : { title: "As we play it" })}
        />
      )}
      {recorded === undefined ? null : (
        <GridView grid={recorded} metre={metre} large={large} title="On the recording" />
      )}
      <Signs grids={[grid, recorded]} />
    </>
  );
};

/** What the signs beside the heads mean, where there are any. */
const Signs = ({ grids }: { readonly grids: readonly (Grid | undefined)[] }) => {
  const marks = grids
    .flatMap((grid) => (grid === undefined ? [] : [...marksOf(grid).values()]))
    .flatMap((row) => [...row.values()]);
  const said = [
    ...(marks.some(({ withKick }) => withKick) ? ["Ring: with the kick."] : []),
    ...(marks.some(({ push }) => push) ? ["Arrow: ahead of the beat."] : []),
  ];
  return said.length === 0 ? null : <p className="caption">{said.join(" ")}</p>;
};
