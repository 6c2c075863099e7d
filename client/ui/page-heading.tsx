import type { ReactNode } from "react";

export interface PageHeadingProps {
  /** Also the title of the window. */
  readonly title: string;
  /** One quiet line over the title: where this belongs. */
  readonly above?: ReactNode;
  /** Figures or actions at the far end of the line. */
  readonly aside?: ReactNode;
}

/** The one heading of a screen. The focus comes here when the screen changes. */
export const PageHeading = ({ title, above, aside }: PageHeadingProps) => (
  <header className="final-barline mb-6 pt-4 laptop:pt-8">
    <title>{`${title} · Tightrow`}</title>
    <div className="flex flex-wrap items-end justify-between gap-x-8 gap-y-3">
      <div className="min-w-0">
        {above ? <p className="caption">{above}</p> : null}
        <h1 tabIndex={-1} className="text-display font-light tracking-tight">
          {title}
        </h1>
      </div>
      {aside ? <div className="flex flex-wrap items-end gap-x-6 gap-y-2">{aside}</div> : null}
    </div>
  </header>
);

/** Heads a group within a screen: a word on a hairline, with what belongs to it at the far end. */
export const SectionHeading = ({
  title,
  aside,
}: {
  readonly title: ReactNode;
  readonly aside?: ReactNode;
}) => (
  <div className="mt-8 mb-2 flex min-h-9 flex-wrap items-end justify-between gap-3 border-b border-control pb-1">
    <h2 className="text-room font-semibold">{title}</h2>
    {aside ? <div className="caption">{aside}</div> : null}
  </div>
);
