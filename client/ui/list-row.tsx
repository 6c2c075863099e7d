import type { ReactNode } from "react";
import { type ControlSize, controlHeight } from "./button.tsx";
import { classNames } from "./class-names.ts";

export interface ListRowProps {
  /** Left: a glyph, a time, a number. */
  readonly lead?: ReactNode;
  readonly children: ReactNode;
  /** A quiet second line. */
  readonly note?: ReactNode;
  /** Right: a figure or a control. */
  readonly trail?: ReactNode;
  /** Makes the words of the row a link … */
  readonly href?: string;
  /** … or a button. The trailing control stays outside of it. */
  readonly onOpen?: () => void;
  readonly size?: ControlSize;
}

/** One line of a list, closed by a hairline. To be used inside `<ul>` or `<ol>`. */
export const ListRow = ({ lead, children, note, trail, href, onOpen, size = "plain" }: ListRowProps) => {
  const inside = (
    <>
      {lead ? <span className="flex shrink-0 items-center">{lead}</span> : null}
      <span className="min-w-0 flex-1">
        {children}
        {note ? <span className="caption block">{note}</span> : null}
      </span>
    </>
  );
  const look = classNames("flex min-w-0 flex-1 items-center gap-3 py-1.5 text-left", controlHeight(size));
  const opens = "decoration-control underline-offset-4 hover:underline -outline-offset-2";
  return (
    <li className={classNames("flex items-center gap-3 border-b border-line", trail ? "py-1" : null)}>
      {href !== undefined ? (
        <a href={href} className={classNames(look, opens)}>
          {inside}
        </a>
      ) : onOpen ? (
        <button type="button" onClick={onOpen} className={classNames(look, opens)}>
          {inside}
        </button>
      ) : (
        <div className={look}>{inside}</div>
      )}
      {trail ? <div className="flex shrink-0 items-center gap-2">{trail}</div> : null}
    </li>
  );
};
