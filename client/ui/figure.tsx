import type { ReactNode } from "react";

export interface FigureProps {
  /** The number, as rounded by the caller. */
  readonly value: ReactNode;
  /** Set small after the number: "of 85 min", "%". */
  readonly unit?: ReactNode;
  /** What the number says. */
  readonly label: ReactNode;
  /** large = the one number of a screen. */
  readonly size?: "plain" | "large";
}

/** A number with its name under it. */
export const Figure = ({ value, unit, label, size = "plain" }: FigureProps) => (
  <p className="flex flex-col">
    <span className="whitespace-nowrap">
      <span
        className={size === "large" ? "text-figure font-light tracking-tight" : "text-title font-semibold"}
      >
        {value}
      </span>
      {unit ? <span className="ml-1.5 text-quiet">{unit}</span> : null}
    </span>
    <span className="caption">{label}</span>
  </p>
);
