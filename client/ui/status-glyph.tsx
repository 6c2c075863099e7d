import { classNames } from "./class-names.ts";
import { headDashes, headPath, linkPath, stemPath, strikePath } from "./note-head.ts";

/** 0 = dashed outline of a head, 1 = open head, 2 = open head with stem, 3 = filled head with stem. */
export type GlyphLevel = 0 | 1 | 2 | 3;

export interface GlyphMarks {
  readonly level: GlyphLevel;
  /** A stroke through the head. */
  readonly slipped?: boolean | undefined;
  /** A link mark beside the stem. */
  readonly waiting?: boolean | undefined;
}

export interface StatusGlyphProps extends GlyphMarks {
  /** Edge of the square in px, 16 to 40. */
  readonly size?: number;
  /** Its name for screen readers; without one the glyph is decoration beside its word. */
  readonly label?: string;
  readonly className?: string;
}

const HEAD = { x: 11.5, y: 17.6, radius: 7.2 };
const STROKE = 1.9;
const DASHES = headDashes(HEAD.radius, STROKE / 2);

/** One status as a note shape. Told apart by shape alone, at 16 px and in monochrome print. */
export const StatusGlyph = ({ level, slipped, waiting, size = 24, label, className }: StatusGlyphProps) => (
  <svg
    width={size}
    height={size}
    viewBox="0 0 24 24"
    className={classNames("inline-block align-middle", className)}
    fill="none"
    stroke="currentColor"
    strokeWidth={STROKE}
    role={label ? "img" : "presentation"}
    aria-label={label}
    aria-hidden={label ? undefined : true}
  >
    {level === 3 ? (
      <path d={headPath(HEAD)} fill="currentColor" stroke="none" />
    ) : (
      <path d={headPath(HEAD, STROKE / 2)} strokeDasharray={level === 0 ? DASHES : undefined} />
    )}
    {level >= 2 ? <path d={stemPath(HEAD, 1, STROKE)} /> : null}
    {slipped ? <Strike /> : null}
    {waiting ? <path d={linkPath(6.6, 4.4, 3.1)} strokeWidth={1.6} /> : null}
  </svg>
);

/** Laid over a gap in the colour of the ground, so that it also shows across a filled head. */
const Strike = () => (
  <>
    <path d={strikePath(HEAD)} className="stroke-ground" strokeWidth={4.2} />
    <path d={strikePath(HEAD)} className="stroke-slip" strokeWidth={2} />
  </>
);
