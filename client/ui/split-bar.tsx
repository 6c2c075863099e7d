import { useId } from "react";

/** One part of a whole. */
export interface SplitSegment {
  readonly label: string;
  /** Part of the whole, 0 to 1; all parts together are 1. */
  readonly share: number;
  /** The part in figures, as the caller rounds it. */
  readonly value: string;
}

export interface SplitBarProps {
  /** What is split, read aloud before the parts. */
  readonly label: string;
  readonly segments: readonly SplitSegment[];
}

/** Fills in order, from solid to empty, so that neighbours differ by pattern and not by hue. Six, then again. */
const FILLS = 6;
const WIDTH = 600;
const HEIGHT = 28;

const Patterns = ({ id }: { readonly id: string }) => (
  <defs>
    <pattern id={`${id}-1`} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
      <path d="M0 1.5H6" stroke="currentColor" strokeWidth="2.5" />
    </pattern>
    <pattern id={`${id}-2`} width="6" height="6" patternUnits="userSpaceOnUse">
      <circle cx="3" cy="3" r="1.4" fill="currentColor" />
    </pattern>
    <pattern id={`${id}-3`} width="4" height="4" patternUnits="userSpaceOnUse">
      <path d="M0 2H4" stroke="currentColor" strokeWidth="1" />
    </pattern>
    <pattern id={`${id}-4`} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
      <path d="M0 3.5H7M3.5 0V7" stroke="currentColor" strokeWidth="1" />
    </pattern>
  </defs>
);

const fillOf = (id: string, index: number): string => {
  const kind = index % FILLS;
  if (kind === 0) return "currentColor";
  return kind === FILLS - 1 ? "none" : `url(#${id}-${kind})`;
};

/** One bar cut into named parts that add up, with the same parts in words and figures below. */
export const SplitBar = ({ label, segments }: SplitBarProps) => {
  const id = useId();
  const starts = segments.map((_, index) =>
    segments.slice(0, index).reduce((sum, segment) => sum + segment.share, 0),
  );
  return (
    <figure>
      <figcaption className="caption mb-2">{label}</figcaption>
      <svg
        aria-hidden="true"
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        preserveAspectRatio="none"
        className="h-7 w-full"
        stroke="currentColor"
      >
        <Patterns id={id} />
        {segments.map((segment, index) => (
          <rect
            key={segment.label}
            x={(starts[index] ?? 0) * WIDTH}
            y={0.5}
            width={Math.max(0, segment.share * WIDTH)}
            height={HEIGHT - 1}
            fill={fillOf(id, index)}
            vectorEffect="non-scaling-stroke"
          />
        ))}
      </svg>
      <ul className="mt-2">
        {segments.map((segment, index) => (
          <li
            key={segment.label}
            className="flex min-h-8 items-center gap-3 border-b border-line last:border-0"
          >
            <svg aria-hidden="true" width="22" height="14" stroke="currentColor">
              <rect x="0.5" y="0.5" width="21" height="13" fill={fillOf(id, index)} />
            </svg>
            <span className="min-w-0 flex-1">{segment.label}</span>
            <span>{segment.value}</span>
          </li>
        ))}
      </ul>
    </figure>
  );
};
