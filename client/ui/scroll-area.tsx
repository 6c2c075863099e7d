import type { ReactNode } from "react";
import { classNames } from "./class-names.ts";

export interface ScrollAreaProps {
  /** What scrolls; read aloud when the focus comes here. */
  readonly label: string;
  readonly children: ReactNode;
  readonly className?: string;
}

/** Something wider than the page: scrolls sideways by itself, by finger, wheel and arrow keys. */
export const ScrollArea = ({ label, children, className }: ScrollAreaProps) => (
  <section
    aria-label={label}
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a region that scrolls must be reachable by keyboard
    tabIndex={0}
    className={classNames("overflow-x-auto -outline-offset-2", className)}
  >
    {children}
  </section>
);
