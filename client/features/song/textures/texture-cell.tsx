import { memo } from "react";
import { classNames } from "#client/ui/class-names.ts";
import type { Presence, TextureChanges } from "#shared/board/texture.ts";
import { PRESENCE_LEVEL } from "#shared/music/texture.ts";
import { EVERY_PASS, ownPasses, stretchesOf } from "#shared/music/texture-changes.ts";

const LETTERS: { readonly [P in Presence]: string } = { rest: "R", light: "L", play: "P", full: "F" };

export interface TextureCellProps {
  readonly section: string;
  readonly chair: string;
  readonly bars: number;
  readonly changes: TextureChanges;
  /** Painted in this very picture, not taken over from the record. */
  readonly own: boolean;
  /** Ours reads otherwise than the record, and that is what one looks for. */
  readonly marked: boolean;
  readonly label: string;
  readonly column: number;
  readonly isStop: boolean;
  /** Time runs down instead of across. */
  readonly turned: boolean;
}

/** A letter that is drawn and not said: the cell has a name of its own. */
const DRAWN = "before:content-[attr(data-drawn)]";

/** How far a stretch is filled, by height where time runs across and by width where it runs down, with its letter on it. */
const Fill = ({ presence, turned }: { readonly presence: Presence; readonly turned: boolean }) => {
  const share = `${PRESENCE_LEVEL[presence] * 100}%`;
  return (
    <>
      {presence === "rest" ? null : (
        <span
          className={classNames(
            "absolute bottom-0 left-0 bg-line [print-color-adjust:exact]",
            turned ? "h-full border-r-2 border-ink" : "w-full border-t-2 border-ink print:border-t-0",
          )}
          style={turned ? { width: share } : { height: share }}
        />
      )}
      <span data-drawn={LETTERS[presence]} className={classNames(DRAWN, "relative m-auto leading-none")} />
    </>
  );
};

/** A board is read anew a song at a time, so equal changes may be other ones. */
const isSameCell = (
  { changes: a, ...before }: TextureCellProps,
  { changes: b, ...after }: TextureCellProps,
) =>
  (Object.keys(after) as (keyof typeof after)[]).every((name) => before[name] === after[name]) &&
  a.length === b.length &&
  a.every(({ bar, pass, presence }, i) => {
    const other = b[i];
    return other?.bar === bar && other.pass === pass && other.presence === presence;
  });

const TextureCellItself = (props: TextureCellProps) => {
  const { changes, bars, turned } = props;
  const times = ownPasses(changes);
  return (
    // biome-ignore lint/a11y/useSemanticElements: cells are to the scale of bars, which a table does not draw
    <div
      role="gridcell"
      aria-colindex={props.column}
      aria-label={props.label}
      tabIndex={props.isStop ? 0 : -1}
      data-section={props.section}
      data-chair={props.chair}
      className={classNames(
        "relative flex min-h-12 select-none print:min-h-5 overflow-hidden border-r border-b border-control text-small -outline-offset-2",
        turned ? "min-w-7 flex-1 basis-0 flex-col" : "min-w-10 basis-0",
        props.own ? "font-semibold" : "expression",
      )}
      style={turned ? undefined : { flexGrow: bars }}
    >
      {stretchesOf(changes, bars, EVERY_PASS).map(({ bar, bars: length, presence }) => (
        <span
          key={bar}
          aria-hidden="true"
          className={classNames(
            "relative flex basis-0",
            bar > 1 &&
              (turned ? "border-t border-dashed border-control" : "border-l border-dashed border-control"),
          )}
          style={{ flexGrow: length }}
        >
          <Fill presence={presence} turned={turned} />
        </span>
      ))}
      {props.marked ? <span aria-hidden="true" className="absolute inset-0 border-3 border-accent" /> : null}
      {times.length === 0 ? null : (
        <span
          data-drawn={`${times.join("+")}×`}
          className={classNames(DRAWN, "absolute top-0 right-0.5 text-[0.6875rem] leading-tight")}
        />
      )}
    </div>
  );
};

/** One section of one part; it is drawn again only when it reads otherwise. */
export const TextureCell = memo(TextureCellItself, isSameCell);
