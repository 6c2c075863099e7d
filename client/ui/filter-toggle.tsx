import type { ReactNode } from "react";
import { classNames } from "./class-names.ts";

export interface FilterToggleProps {
  readonly pressed: boolean;
  readonly onChange: (pressed: boolean) => void;
  readonly children: ReactNode;
}

/** A word that is on or off: underlined thick, and bold, while on. */
export const FilterToggle = ({ pressed, onChange, children }: FilterToggleProps) => (
  <button
    type="button"
    aria-pressed={pressed}
    onClick={() => onChange(!pressed)}
    className={classNames(
      "min-h-12 px-3 -outline-offset-2 dense:min-h-9",
      pressed ? "font-semibold text-ink shadow-[inset_0_-4px_0] shadow-ink" : "text-quiet hover:text-ink",
    )}
  >
    {children}
  </button>
);
