import type { ReactNode } from "react";

export interface EmptyStateProps {
  readonly title: string;
  /** One or two sentences that teach what would stand here. */
  readonly children: ReactNode;
  /** The one next step. */
  readonly action?: ReactNode;
}

/** Nothing here yet: an empty bar, what would stand in it, and one way on. */
export const EmptyState = ({ title, children, action }: EmptyStateProps) => (
  <section className="flex max-w-xl flex-col items-start gap-4 py-8">
    <svg
      aria-hidden="true"
      viewBox="0 0 240 24"
      className="h-6 w-60 max-w-full stroke-control"
      strokeWidth="1"
    >
      <path d="M.5 2V22M0 12H236M236 2V22" />
      <path d="M239 2V22" strokeWidth="2" />
    </svg>
    <h2 className="text-title font-semibold">{title}</h2>
    <div className="text-quiet">{children}</div>
    {action}
  </section>
);
