import { Accordion } from "#client/ui/accordion.tsx";
import { later } from "#client/ui/later.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { type Card, SIDE_NAMES } from "#shared/board/card.ts";
import { SIDE_LABELS } from "#shared/board/sides/side-labels.ts";
import { GridsView } from "./grid/grids-view.tsx";
import { ShapeView } from "./shape-view.tsx";
import { SideViews } from "./sides/side-views.tsx";

const GridStudy = later(async () => (await import("./grid/grid-study.tsx")).GridStudy, "min-h-24 no-print");

export interface DrawnViewProps {
  readonly card: Pick<Card, "grid" | "recordedGrid" | "shape" | "sides" | "where">;
  readonly song: SongFile;
  /** To be read from where one plays. */
  readonly large?: boolean;
  /** Without what is fetched later. */
  readonly paper?: boolean;
}

const hasGrid = ({ grid, recordedGrid }: DrawnViewProps["card"]): boolean =>
  grid !== undefined || recordedGrid !== undefined;

/** What a detail shows beside its words; nothing where it shows nothing. Paper waits for nothing that is fetched later. */
export const DrawnView = ({ card, song, large = false, paper = false }: DrawnViewProps) => (
  <>
    <GridsView card={card} song={song} large={large} />
    {large || paper || !hasGrid(card) ? null : <GridStudy card={card} song={song} />}
    {card.shape === undefined ? null : <ShapeView shape={card.shape} song={song.song} large={large} />}
    {card.sides === undefined ? null : <SideViews sides={card.sides} song={song} large={large} />}
  </>
);

/** The same in a list of details: folded, one tap away. */
export const DrawnFold = ({ card, song }: DrawnViewProps) => {
  const shown = [
    ...(hasGrid(card) ? ["grid"] : []),
    ...(card.shape === undefined ? [] : ["shape"]),
    ...SIDE_NAMES.filter((side) => card.sides?.[side] !== undefined).map((side) => SIDE_LABELS[side]),
  ];
  if (shown.length === 0) return null;
  const summary = [...shown.slice(0, -2), shown.slice(-2).join(" and ")].join(", ");
  return (
    <Accordion summary={<span className="text-quiet">{summary}</span>} className="border-b-0">
      <DrawnView card={card} song={song} />
    </Accordion>
  );
};
