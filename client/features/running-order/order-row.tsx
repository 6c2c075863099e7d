import { memo } from "react";
import { songLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { classNames } from "#client/ui/class-names.ts";
import type { GigSong } from "#shared/board/band.ts";
import { formatLength } from "#shared/music/duration.ts";
import { type RowActions, RowTools } from "./row-tools.tsx";

/** Plain values only, so that a row whose song stands as before is not rendered again. */
export interface OrderRowProps {
  readonly song: string;
  readonly title: string;
  readonly startsAt: number;
  /** What happens before it; empty = nothing. */
  readonly join: string;
  /** Key, tempo and tuning. */
  readonly facts: string;
  /** 0 to 1. */
  readonly energy: number;
  readonly ready: boolean;
  readonly pin: GigSong["pin"];
  /** Somebody asked for it. */
  readonly requested: boolean;
  /** It is being dragged. */
  readonly dragged: boolean;
  /** What is being dragged would land before it. */
  readonly landing: boolean;
  /** Undefined where the order is only read. */
  readonly actions: RowActions | null | undefined;
}

/** How big a song feels, as the height of a bar. */
const Energy = ({ energy }: { readonly energy: number }) => (
  <svg aria-hidden="true" viewBox="0 0 8 32" className="h-8 w-2 shrink-0">
    <rect width="8" height="32" className="fill-line" />
    <rect
      width="8"
      y={32 - 32 * Math.max(0.06, energy)}
      height={32 * Math.max(0.06, energy)}
      className="fill-ink"
    />
  </svg>
);

/** One song of an order: when it starts, what happens before it, and what can be done to it. */
export const OrderRow = memo(({ song, title, actions, ...props }: OrderRowProps) => {
  const href = useHref();
  return (
    <li
      data-song={song}
      onKeyDown={actions ? (event) => actions.onKeyDown(song, event) : undefined}
      className={classNames(
        "border-b border-line",
        props.dragged ? "opacity-50" : "",
        props.landing ? "border-t-4 border-t-accent" : "",
      )}
    >
      {props.join === "" ? null : <p className="caption pt-1 pl-16">{props.join}</p>}
      <div className="flex items-center gap-3 py-1.5">
        <span className="w-12 shrink-0 text-right text-quiet tabular-nums">
          {formatLength(props.startsAt)}
        </span>
        <Energy energy={props.energy} />
        <div className="min-w-0 flex-1">
          <a
            href={href(songLink(song))}
            className={classNames(
              "inline-flex min-h-11 items-center decoration-control underline-offset-4 hover:underline dense:min-h-6",
              props.ready ? "font-semibold" : "",
            )}
          >
            {title}
          </a>
          <p className="caption">
            {props.facts}
            {props.ready ? "" : " · not ready"}
          </p>
        </div>
        {actions === undefined ? null : (
          <RowTools song={song} title={title} pin={props.pin} requested={props.requested} actions={actions} />
        )}
      </div>
    </li>
  );
});
