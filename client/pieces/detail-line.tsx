import { memo, type ReactNode } from "react";
import type { ControlSize } from "#client/ui/button.tsx";
import { classNames } from "#client/ui/class-names.ts";
import { StatusGlyph } from "#client/ui/status-glyph.tsx";
import type { SongFile } from "#shared/board/board.ts";
import { isDisputed } from "#shared/board/card.ts";
import { LEVEL_WORDS } from "#shared/board/status.ts";
import { formatWhere } from "#shared/board/where.ts";
import type { Names } from "#shared/readiness/names.ts";
import {
  type DetailLine as DetailReading,
  type Standing,
  sameDetailLine,
} from "#shared/selectors/part-view.ts";
import { StatusControl } from "./status-control.tsx";
import { useNames } from "./use-names.ts";

export interface DetailLineProps {
  readonly line: DetailReading;
  readonly song: Pick<SongFile, "sections">;
  /**
   * first = the first standing can be marked here and the others are named as partners;
   * none = everybody is named.
   */
  readonly control?: "first" | "none";
  readonly size?: ControlSize;
  /** Names the song over the line, in lists over several songs. */
  readonly title?: ReactNode;
  /** Beside the status while nothing is wrong with it: the last change. */
  readonly note?: string | undefined;
  /** At the end of the first line: a menu. */
  readonly trail?: ReactNode;
  /** Under the line: its history, its form. */
  readonly children?: ReactNode;
  /** Points it out, where the screen was opened at this detail. */
  readonly pointedOut?: boolean;
}

/** One player on a shared detail: glyph, chair, and the status in words for those who cannot see the glyph. */
export const Partner = ({ standing, names }: { readonly standing: Standing; readonly names: Names }) => (
  <span className="inline-flex min-w-0 items-center gap-1">
    {standing.member === null ? null : (
      <StatusGlyph level={standing.level} slipped={standing.slipped} waiting={standing.waiting} size={18} />
    )}
    {names.chair(standing.chair)}
    {standing.member === null ? <span className="expression">(nobody)</span> : null}
    {standing.member === null ? null : (
      <span className="sr-only">
        , {names.member(standing.member)}: {LEVEL_WORDS[standing.level]}
      </span>
    )}
  </span>
);

const OTHER_PROPS = ["control", "size", "title", "note", "trail", "children", "pointedOut"] as const;

const sameProps = (a: DetailLineProps, b: DetailLineProps): boolean =>
  sameDetailLine(a.line, b.line) &&
  a.song.sections === b.song.sections &&
  OTHER_PROPS.every((name) => a[name] === b[name]);

/** A detail as a row: where, how much it matters, what to do, when it is right, with whom. */
export const DetailLine = memo(
  ({ line, song, control = "first", size = "plain", ...props }: DetailLineProps) => {
    const names = useNames();
    const { card, standings } = line;
    const must = card.weight === "must";
    const [mine, ...partners] = control === "first" ? standings : [undefined, ...standings];
    const named = partners.filter((standing) => standing !== undefined);
    const disputed = isDisputed(card.versions.text) || isDisputed(card.versions.right);
    return (
      <div
        data-pointed-out={props.pointedOut || undefined}
        className={classNames(
          "border-b border-line py-2",
          props.pointedOut && "border-l-4 border-l-accent pl-3",
          size === "room" && "text-room",
        )}
      >
        {props.title ? <div className="caption">{props.title}</div> : null}
        <div className="flex items-start gap-2">
          <div className="min-w-0 flex-1">
            <p className="caption">
              <span className="text-ink">{formatWhere(card.where, song.sections)}</span>
              {" · "}
              <span className={must ? "font-semibold text-ink" : undefined}>{card.weight}</span>
              {card.kind === "general" ? null : ` · ${card.kind}`}
              {" · "}
              <span className="expression">{card.source}</span>
              {card.without === undefined ? null : ` · when ${names.chair(card.without)} is away`}
            </p>
            <p className={must ? "font-semibold" : undefined}>
              {card.text || <span className="expression text-quiet">a detail without words</span>}
            </p>
            {card.right === "" ? null : <p className="text-quiet">→ {card.right}</p>}
          </div>
          {props.trail}
        </div>
        {disputed ? (
          <p className="text-small text-accent">Two wordings stand side by side: settle them.</p>
        ) : null}
        {named.length === 0 ? null : (
          <p className="caption mt-1 flex flex-wrap gap-x-3 gap-y-1">
            <span>{control === "first" ? "with" : "for"}</span>
            {named.map((standing) => (
              <Partner key={standing.chair} standing={standing} names={names} />
            ))}
          </p>
        )}
        {mine === undefined ? null : (
          <div className="mt-2">
            <StatusControl standing={mine} card={card} song={song} size={size} note={props.note} />
          </div>
        )}
        {props.children}
      </div>
    );
  },
  sameProps,
);
DetailLine.displayName = "DetailLine";
