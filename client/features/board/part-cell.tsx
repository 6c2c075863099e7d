import { memo } from "react";
import { classNames } from "#client/ui/class-names.ts";
import { cellRole } from "#client/ui/grid-roles.ts";
import type { Chair } from "#shared/board/band.ts";
import { PartBar } from "./part-bar.tsx";
import { PeopleHere } from "./people-here.tsx";
import { usePartSummary } from "./use-part-summary.ts";

export interface PartCellProps {
  readonly song: string;
  readonly chair: Chair;
  /** Column in the grid, from 1. */
  readonly column: number;
  /** Holds the grid's one tab stop. */
  readonly active: boolean;
  /** Its part is open beside the board. */
  readonly open: boolean;
}

/** A cell of the board: one part. The grid opens it, by pointer or by Enter. */
export const PartCell = memo(({ song, chair, column, active, open }: PartCellProps) => {
  const cell = usePartSummary(song, chair);
  return (
    <div
      {...cellRole(column)}
      aria-current={open ? "true" : undefined}
      tabIndex={active ? 0 : -1}
      data-column={chair.id}
      className={classNames(
        "relative min-w-0 flex-1 basis-0 cursor-pointer overflow-hidden px-2 pt-0.5 pb-1 -outline-offset-2 hover:bg-raised",
        open && "bg-raised shadow-[inset_0_-3px_0] shadow-accent",
      )}
    >
      {cell === null ? null : <PartBar cell={cell} />}
      <PeopleHere song={song} chair={chair.id} className="absolute top-9 right-2" />
    </div>
  );
});
PartCell.displayName = "PartCell";
