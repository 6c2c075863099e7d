import { type FocusEvent, type MouseEvent, useEffect, useMemo, useRef } from "react";
import { useViewpoint } from "#client/store/hooks.ts";
import { useMove } from "#client/store/presence-hooks.ts";
import { columnHeadRole, rowRole } from "#client/ui/grid-roles.ts";
import type { Chair } from "#shared/board/band.ts";
import { ColumnHead } from "./column-head.tsx";
import { GridRow, HEAD_COLUMNS } from "./grid-row.tsx";
import { elementAt, type GridPlace, placeOf, useGridKeys } from "./use-grid-keys.ts";

export interface OpenPart {
  readonly song: string;
  readonly chair: string;
}

export interface BoardGridProps {
  /** Song ids in the order to show. */
  readonly songs: readonly string[];
  readonly chairs: readonly Chair[];
  readonly onOpenPart: (song: string, chair: string) => void;
  readonly onOpenScore: (song: string) => void;
  readonly openPart: OpenPart | null;
}

/** Rem: the song's own columns, and the least a chair needs to show seven heads and its word. */
const HEAD_WIDTH = 27.5;
const CHAIR_WIDTH = 6.5;

/** Returns the focus to the cell of a part that was just closed, unless it has gone somewhere else on purpose. */
const useReturnToCell = (grid: React.RefObject<HTMLElement | null>, openPart: OpenPart | null): void => {
  const last = useRef(openPart);
  useEffect(() => {
    const before = last.current;
    last.current = openPart;
    const focused = document.activeElement;
    const lost = focused === null || focused === document.body || grid.current?.contains(focused) === true;
    if (before === null || openPart !== null || grid.current === null || !lost) return;
    elementAt(grid.current, { song: before.song, column: before.chair })?.focus();
  }, [grid, openPart]);
};

/** Songs × chairs as one grid. It scrolls by itself, so that its heads stay in sight in both directions. */
export const BoardGrid = ({ songs, chairs, onOpenPart, onOpenScore, openPart }: BoardGridProps) => {
  const grid = useRef<HTMLDivElement>(null);
  const [{ gig }] = useViewpoint();
  const columns = useMemo(() => [...HEAD_COLUMNS, ...chairs.map(({ id }) => id)], [chairs]);
  const keys = useGridKeys(grid, { songs, columns });
  const places = useMemo(() => new Map(gig?.songs.map(({ song }, i) => [song, i])), [gig]);
  useReturnToCell(grid, openPart);
  const move = useMove();
  const onFocus = (event: FocusEvent<HTMLElement>): void => {
    keys.onFocus(event);
    const place = placeOf(event.target);
    if (place === null) return;
    const chair = chairs.some(({ id }) => id === place.column) ? place.column : null;
    move({ screen: "board", song: place.song, chair });
  };

  const open = (place: GridPlace, element: Element): void => {
    if (element.closest("[data-opens]") !== null) onOpenScore(place.song);
    else if (chairs.some(({ id }) => id === place.column)) onOpenPart(place.song, place.column);
  };
  const onClick = (event: MouseEvent<HTMLElement>): void => {
    if (!(event.target instanceof Element)) return;
    const place = placeOf(event.target);
    if (place === null) return;
    // A click alone does not focus what is no button everywhere, and the focus must come back here later.
    if (grid.current !== null) elementAt(grid.current, place)?.focus({ preventScroll: true });
    open(place, event.target);
  };

  return (
    // biome-ignore lint/a11y/useSemanticElements: a table cannot stack two columns above each other
    <div
      ref={grid}
      role="grid"
      aria-label="Songs by chairs. Arrow keys move, Enter opens."
      aria-rowcount={songs.length + 1}
      aria-colcount={columns.length}
      aria-readonly="true"
      tabIndex={-1}
      onFocus={onFocus}
      onBlur={() => move(null)}
      onClick={onClick}
      onKeyDown={(event) => {
        keys.onKeyDown(event);
        const { target } = event;
        // Links and buttons answer Enter by themselves.
        if (event.key !== "Enter" || !(target instanceof Element) || target.role !== "gridcell") return;
        const place = placeOf(target);
        if (place !== null) open(place, target);
      }}
      className="max-h-[calc(100dvh-7rem)] scroll-pt-28 scroll-pl-110 overflow-auto overscroll-x-contain border-y border-control"
    >
      <div role="presentation" style={{ minWidth: `${HEAD_WIDTH + CHAIR_WIDTH * chairs.length}rem` }}>
        <div {...rowRole(1)} className="sticky top-0 z-20 flex border-b border-control bg-ground">
          <div className="sticky left-0 z-10 flex w-110 shrink-0 items-end border-r border-control bg-ground pb-1">
            <div className="min-w-0 flex-1">
              <HeadWord column={1} word="Song" />
              <HeadWord column={2} word="ready, or what is in the way" quiet />
            </div>
            <HeadWord column={3} word="today → night" quiet className="w-26 px-2 text-right" />
          </div>
          {chairs.map((chair, index) => (
            <ColumnHead key={chair.id} chair={chair} column={HEAD_COLUMNS.length + 1 + index} songs={songs} />
          ))}
        </div>
        {songs.map((song, index) => (
          <GridRow
            key={song}
            song={song}
            row={index + 2}
            place={places.get(song) ?? null}
            chairs={chairs}
            activeColumn={keys.active?.song === song ? keys.active.column : null}
            openChair={openPart?.song === song ? openPart.chair : null}
          />
        ))}
      </div>
    </div>
  );
};

const HeadWord = (props: {
  readonly column: number;
  readonly word: string;
  readonly quiet?: boolean;
  readonly className?: string;
}) => (
  <div
    {...columnHeadRole(props.column)}
    className={`${props.quiet ? "caption" : "font-semibold"} ${props.className ?? ""}`}
  >
    {props.word}
  </div>
);
