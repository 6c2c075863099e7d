import { memo } from "react";
import { rowRole } from "#client/ui/grid-roles.ts";
import type { Chair } from "#shared/board/band.ts";
import { PartCell } from "./part-cell.tsx";
import { ReadyCell, ScoreCell, TitleCell } from "./row-heads.tsx";

/** Columns before the first chair. */
export const HEAD_COLUMNS = ["title", "ready", "score"] as const;

export interface GridRowProps {
  readonly song: string;
  /** Row in the grid, from 1; the column heads are row 1. */
  readonly row: number;
  /** Place in the gig's running order, from 0. */
  readonly place: number | null;
  readonly chairs: readonly Chair[];
  /** Column that holds the grid's one tab stop, where it is in this row. */
  readonly activeColumn: string | null;
  /** Chair whose part is open, where it is in this row. */
  readonly openChair: string | null;
}

/** One song. Follows nothing itself; each of its cells follows its own part of the song. */
export const GridRow = memo((props: GridRowProps) => {
  const { song, chairs, activeColumn, openChair } = props;
  return (
    <div
      {...rowRole(props.row)}
      data-song={song}
      className="flex min-h-14 border-b border-line [contain-intrinsic-block-size:auto_4rem] [content-visibility:auto]"
    >
      <div className="sticky left-0 z-10 flex w-110 shrink-0 border-r border-control bg-ground py-1">
        <div className="min-w-0 flex-1">
          <TitleCell song={song} active={activeColumn === "title"} place={props.place} />
          <ReadyCell song={song} active={activeColumn === "ready"} />
        </div>
        <ScoreCell song={song} active={activeColumn === "score"} />
      </div>
      {chairs.map((chair, index) => (
        <PartCell
          key={chair.id}
          song={song}
          chair={chair}
          column={HEAD_COLUMNS.length + 1 + index}
          active={activeColumn === chair.id}
          open={openChair === chair.id}
        />
      ))}
    </div>
  );
});
GridRow.displayName = "GridRow";
