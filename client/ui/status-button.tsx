import type { ComponentPropsWithRef } from "react";
import { type ControlSize, controlHeight } from "./button.tsx";
import { classNames } from "./class-names.ts";
import { type GlyphMarks, StatusGlyph } from "./status-glyph.tsx";

export interface StatusButtonProps
  extends GlyphMarks,
    Omit<ComponentPropsWithRef<"button">, "children" | "className"> {
  /** The status in words; shown beside the glyph. */
  readonly word: string;
  /** What it is the status of; read before the word. */
  readonly about: string;
  readonly size?: ControlSize;
  readonly className?: string;
}

/** A status one can press. Its width holds still while the words change, so nothing moves under the thumb. */
export const StatusButton = ({
  level,
  slipped,
  waiting,
  word,
  about,
  size = "plain",
  className,
  ...rest
}: StatusButtonProps) => (
  <button
    type="button"
    className={classNames(
      "inline-flex shrink-0 items-center gap-2 rounded-edge border border-control pr-3 pl-2 text-left hover:border-ink disabled:border-dashed disabled:text-quiet",
      size === "room" ? "min-w-40" : "min-w-36",
      controlHeight(size),
      level === 3 && !slipped && "font-semibold",
      className,
    )}
    {...rest}
  >
    <StatusGlyph level={level} slipped={slipped} waiting={waiting} size={size === "room" ? 34 : 26} />
    <span className="sr-only">{about}: </span>
    {word}
  </button>
);
