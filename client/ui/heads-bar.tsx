import { halfHeight, halfWidth, headDashes, headPath, linkPath, stemPath, strikePath } from "./note-head.ts";
import type { GlyphMarks } from "./status-glyph.tsx";

/** One head of a bar. */
export interface BarHead extends GlyphMarks {
  /** Large heads come first and stand apart from the small ones. */
  readonly large: boolean;
}

export interface HeadsBarProps {
  readonly heads: readonly BarHead[];
  /** Nothing to play: the word in place of heads. */
  readonly tacet?: boolean;
  /** Heads beyond this many are told as a number; 7 unless given. */
  readonly max?: number;
  /** The whole bar in words; without it the bar is decoration inside something named. */
  readonly label?: string;
  readonly className?: string;
}

const HEIGHT = 32;
const LINE = 28;
const SIZES = {
  large: { radius: 6.2, stroke: 1.6, top: 4, advance: 16 },
  small: { radius: 4.6, stroke: 1.3, top: 11, advance: 12.5 },
} as const;
const GROUP_GAP = 4;
const LEAD_IN = 2;

interface Drawn {
  readonly width: number;
  /** Path data by kind, so that a bar costs six nodes however many heads it holds. */
  readonly filled: string;
  readonly openLarge: string;
  readonly openSmall: string;
  readonly dashedLarge: string;
  readonly dashedSmall: string;
  readonly struck: string;
  readonly linked: string;
}

/** Lays heads out along the line, large ones first; every length in px. */
export const drawHeads = (heads: readonly BarHead[]): Drawn => {
  const out = {
    width: LEAD_IN,
    filled: "",
    openLarge: "",
    openSmall: "",
    dashedLarge: "",
    dashedSmall: "",
    struck: "",
    linked: "",
  };
  const ordered = [...heads.filter((head) => head.large), ...heads.filter((head) => !head.large)];
  ordered.forEach((head, index) => {
    const size = head.large ? SIZES.large : SIZES.small;
    const group = head.large ? "Large" : "Small";
    if (!head.large && ordered[index - 1]?.large) out.width += GROUP_GAP;
    const at = {
      x: out.width + halfWidth(size.radius),
      y: LINE - 0.5 - halfHeight(size.radius),
      radius: size.radius,
    };
    const outline = headPath(at, size.stroke / 2);
    if (head.level === 3) out.filled += headPath(at);
    else if (head.level === 0) out[`dashed${group}`] += outline;
    else out[`open${group}`] += outline;
    if (head.level >= 2) out[`open${group}`] += stemPath(at, size.top, size.stroke);
    if (head.slipped) out.struck += strikePath(at);
    if (head.waiting) out.linked += linkPath(at.x - 2, size.top + 1, 2.2);
    out.width += size.advance;
  });
  return out;
};

const Heads = ({ drawn }: { readonly drawn: Drawn }) => (
  <>
    {drawn.filled ? <path d={drawn.filled} fill="currentColor" stroke="none" /> : null}
    {drawn.openLarge ? <path d={drawn.openLarge} strokeWidth={SIZES.large.stroke} /> : null}
    {drawn.openSmall ? <path d={drawn.openSmall} strokeWidth={SIZES.small.stroke} /> : null}
    {drawn.dashedLarge ? (
      <path d={drawn.dashedLarge} strokeWidth={SIZES.large.stroke} strokeDasharray={DASHES.large} />
    ) : null}
    {drawn.dashedSmall ? (
      <path d={drawn.dashedSmall} strokeWidth={SIZES.small.stroke} strokeDasharray={DASHES.small} />
    ) : null}
    {drawn.struck ? (
      <>
        <path d={drawn.struck} className="stroke-ground" strokeWidth={3.4} />
        <path d={drawn.struck} className="stroke-slip" strokeWidth={1.8} />
      </>
    ) : null}
    {drawn.linked ? <path d={drawn.linked} strokeWidth={1.1} /> : null}
  </>
);

const DASHES = {
  large: headDashes(SIZES.large.radius, SIZES.large.stroke / 2),
  small: headDashes(SIZES.small.radius, SIZES.small.stroke / 2),
};

/**
 * One bar of the board: heads standing on a line, the large ones first. *Tacet* where there is nothing to play;
 * a bar without heads where nobody has said yet.
 */
export const HeadsBar = ({ heads, tacet = false, max = 7, label, className }: HeadsBarProps) => {
  const large = heads.filter((head) => head.large);
  const shown = [...large, ...heads.filter((head) => !head.large)].slice(0, max);
  const beyond = heads.length - shown.length;
  const drawn = drawHeads(shown);
  return (
    <span
      {...(label ? { role: "img", "aria-label": label } : {})}
      className={`relative flex h-8 min-w-0 items-end ${className ?? ""}`}
    >
      <span aria-hidden="true" className="absolute inset-x-0 top-7 border-t border-control" />
      {tacet ? <span className="expression relative pb-1 pl-0.5 text-quiet">tacet</span> : null}
      {!tacet && shown.length > 0 ? (
        <svg
          aria-hidden="true"
          width={drawn.width}
          height={HEIGHT}
          viewBox={`0 0 ${drawn.width} ${HEIGHT}`}
          fill="none"
          stroke="currentColor"
          className="relative"
        >
          <Heads drawn={drawn} />
        </svg>
      ) : null}
      {!tacet && beyond > 0 ? (
        <span className="caption relative self-start pl-0.5" aria-hidden={label ? true : undefined}>
          +{beyond}
        </span>
      ) : null}
    </span>
  );
};
