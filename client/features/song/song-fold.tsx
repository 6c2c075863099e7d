import type { ReactNode } from "react";
import { Accordion } from "#client/ui/accordion.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { LAPTOP, useMediaQuery } from "#client/ui/use-media-query.ts";

export interface SongFoldProps {
  readonly title: string;
  /** A few quiet words that say what is inside while it is folded. */
  readonly note?: string;
  readonly startOpen?: boolean;
  readonly children: ReactNode;
}

/** A section of the song: under a heading on a laptop, a fold on a phone, open on paper. */
export const SongFold = ({ title, note, startOpen = false, children }: SongFoldProps) => {
  const laptop = useMediaQuery(LAPTOP);
  if (laptop) {
    return (
      <section>
        <SectionHeading title={title} aside={note} />
        {children}
      </section>
    );
  }
  const summary = (
    <span className="flex flex-wrap items-baseline justify-between gap-x-3">
      <span className="text-room font-semibold">{title}</span>
      {note ? <span className="caption">{note}</span> : null}
    </span>
  );
  return (
    <Accordion summary={summary} size="room" startOpen={startOpen}>
      <h2 className="sr-only">{title}</h2>
      <div className="pb-4">{children}</div>
    </Accordion>
  );
};
