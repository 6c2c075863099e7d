import { type ReactNode, useState } from "react";
import { Accordion } from "#client/ui/accordion.tsx";
import { LAPTOP, useMediaQuery } from "#client/ui/use-media-query.ts";

export interface SongFoldProps {
  readonly title: string;
  /** A few quiet words that say what is inside while it is folded. */
  readonly note?: string;
  readonly startOpen?: boolean;
  readonly children: ReactNode;
}

/**
 * A section of the song: open at first on a laptop, folded on a phone, open on paper. One structure for all of them,
 * so that turning or resizing the window loses nothing that is being typed.
 */
export const SongFold = ({ title, note, startOpen = false, children }: SongFoldProps) => {
  const laptop = useMediaQuery(LAPTOP);
  const [open, setOpen] = useState(laptop || startOpen);
  return (
    <Accordion
      size="room"
      className="laptop:mt-4 laptop:border-b-0"
      open={open}
      onToggle={setOpen}
      summary={
        <span className="flex flex-wrap items-baseline justify-between gap-x-3">
          {/* biome-ignore lint/a11y/useSemanticElements: a heading element may not stand within a span */}
          <span role="heading" aria-level={2} className="text-room font-semibold">
            {title}
          </span>
          {note ? <span className="caption">{note}</span> : null}
        </span>
      }
    >
      <div className="border-t border-control pb-4">{children}</div>
    </Accordion>
  );
};
