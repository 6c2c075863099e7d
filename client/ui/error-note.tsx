import TriangleAlert from "lucide-react/icons/triangle-alert";
import type { ReactNode } from "react";

export interface ErrorNoteProps {
  /** What went wrong, in one sentence. */
  readonly title: string;
  /** What it means, and what is safe. */
  readonly children?: ReactNode;
  /** The way out. */
  readonly action?: ReactNode;
}

/** Something went wrong: said at once, with a way out. */
export const ErrorNote = ({ title, children, action }: ErrorNoteProps) => (
  <section role="alert" className="flex gap-3 border-l-4 border-accent py-2 pl-4">
    <TriangleAlert aria-hidden="true" size={22} strokeWidth={1.75} className="mt-0.5 text-accent" />
    <div className="flex min-w-0 flex-col items-start gap-2">
      <p className="font-semibold">{title}</p>
      {children ? <div className="text-quiet">{children}</div> : null}
      {action}
    </div>
  </section>
);
