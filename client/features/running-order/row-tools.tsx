import Ellipsis from "lucide-react/icons/ellipsis";
import GripVertical from "lucide-react/icons/grip-vertical";
import { type KeyboardEvent, memo, type PointerEvent, useLayoutEffect, useMemo, useRef } from "react";
import { Menu } from "#client/ui/menu.tsx";
import type { GigSong } from "#shared/board/band.ts";
import type { Dragging } from "./use-drag.ts";

/** What can be done to a song of the order, by its id. */
export interface RowActions {
  readonly move: (song: string, by: -1 | 1) => void;
  readonly pin: (song: string, to: GigSong["pin"]) => void;
  readonly takeOut: (song: string) => void;
  readonly onKeyDown: (song: string, event: KeyboardEvent) => void;
  readonly handle: Dragging["handle"];
}

/**
 * The same actions with one reference for good, each doing what it does at the moment it is called: so that a row
 * renders for what it shows, and not because the screen around it did.
 */
export const useRowActions = (actions: RowActions): RowActions => {
  const latest = useRef(actions);
  useLayoutEffect(() => {
    latest.current = actions;
  });
  return useMemo(
    () => ({
      move: (song, by) => latest.current.move(song, by),
      pin: (song, to) => latest.current.pin(song, to),
      takeOut: (song) => latest.current.takeOut(song),
      onKeyDown: (song, event) => latest.current.onKeyDown(song, event),
      handle: (song) => ({
        onPointerDown: (event: PointerEvent<HTMLElement>) => latest.current.handle(song).onPointerDown(event),
        onPointerMove: (event: PointerEvent<HTMLElement>) => latest.current.handle(song).onPointerMove(event),
        onPointerUp: () => latest.current.handle(song).onPointerUp(),
        onPointerCancel: () => latest.current.handle(song).onPointerCancel(),
      }),
    }),
    [],
  );
};

export const PIN_WORDS = {
  here: "stays here",
  must: "must be played",
  "not tonight": "not tonight",
} as const;

export interface RowToolsProps {
  readonly song: string;
  readonly title: string;
  readonly pin: GigSong["pin"];
  readonly requested: boolean;
  /** Null for who may only look. */
  readonly actions: RowActions | null;
}

/** What stands at the end of a row: what is asked of the song, its menu, and the handle it is dragged by. */
export const RowTools = memo(({ song, title, pin, requested, actions }: RowToolsProps) => (
  <>
    {pin === "" && !requested ? null : (
      <span className="caption text-accent">
        {[pin === "" ? "" : PIN_WORDS[pin], requested ? "requested" : ""]
          .filter((word) => word !== "")
          .join(", ")}
      </span>
    )}
    {actions === null ? null : (
      <>
        <Menu
          label={`More about ${title}`}
          trigger={<Ellipsis aria-hidden="true" size={20} strokeWidth={1.75} />}
          className="justify-center text-quiet hover:text-ink no-print"
          items={[
            { label: "Earlier", onSelect: () => actions.move(song, -1) },
            { label: "Later", onSelect: () => actions.move(song, 1) },
            pin === "here"
              ? { label: "May move", onSelect: () => actions.pin(song, "") }
              : { label: "Keep it here", onSelect: () => actions.pin(song, "here") },
            pin === "must"
              ? { label: "May be left out", onSelect: () => actions.pin(song, "") }
              : { label: "Must be played", onSelect: () => actions.pin(song, "must") },
            { label: "Not tonight", onSelect: () => actions.pin(song, "not tonight") },
            { label: "Take out", onSelect: () => actions.takeOut(song) },
          ]}
        />
        <span
          {...actions.handle(song)}
          aria-hidden="true"
          className="flex min-h-11 min-w-11 cursor-grab touch-none items-center justify-center text-quiet no-print"
        >
          <GripVertical size={20} strokeWidth={1.75} />
        </span>
      </>
    )}
  </>
));
