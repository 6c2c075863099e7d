import { useBand } from "#client/store/hooks.ts";
import type { Shape } from "#shared/board/grid.ts";
import { heldFrets, shapeRemark } from "#shared/board/grid-reading.ts";
import type { Song } from "#shared/board/song.ts";
import { shapeSoundWords } from "#shared/music/fretboard.ts";
import { fretsText, shapeWords } from "#shared/music/grid-words.ts";
import { useNeck } from "./use-neck.ts";

export interface ShapeViewProps {
  readonly shape: Shape;
  /** Tunes the strings and spells the notes where the shape does not. */
  readonly song: Pick<Song, "tuning" | "key">;
  /** To be read from where one plays. */
  readonly large?: boolean;
}

/** Units of the drawing: between strings, between frets, the room over the frets and beside them. */
const GAP = 18;
const FRET = 24;
const TOP = 24;
const SIDE = 14;
/** Frets that a box of printed music shows; more where a hand reaches further. */
const FRETS = 4;

/** The frets that are drawn: from the first where they fit there, else from the lowest one held. */
const windowOf = (shape: Shape): { readonly first: number; readonly count: number } => {
  const held = heldFrets(shape);
  const highest = held.at(-1) ?? 0;
  const first = highest <= FRETS ? 1 : (held[0] ?? 1);
  return { first, count: Math.max(FRETS, highest - first + 1) };
};

const StringMark = ({ fret, x }: { readonly fret: number | null; readonly x: number }) => {
  if (fret === null)
    return <path d={`M${x - 4} ${TOP - 14}l8 8m0-8l-8 8`} stroke="currentColor" strokeWidth={1.5} />;
  return fret === 0 ? (
    <circle cx={x} cy={TOP - 10} r={4} fill="none" stroke="currentColor" strokeWidth={1.5} />
  ) : null;
};

/**
 * A shape as a box of strings and frets, lowest string at the left, as printed music has it, or at the right for
 * left-handed players. Read out string by string.
 */
export const ShapeView = ({ shape, song, large = false }: ShapeViewProps) => {
  const { tuning } = useBand();
  const mirrored = useNeck().neck === "left";
  const sound = shapeSoundWords(shape, { tuning: song.tuning || tuning, key: song.key });
  const { first, count } = windowOf(shape);
  const strings = shape.frets.length;
  const right = SIDE + (strings - 1) * GAP;
  const bottom = TOP + count * FRET;
  const [width, height] = [right + 48, bottom + 10];
  const remark = shapeRemark(shape);
  return (
    <figure className="my-2 break-inside-avoid">
      <figcaption className="caption">
        <span aria-hidden="true">
          {fretsText(shape)}
          {shape.capo === 0 ? "" : ` · capo ${shape.capo}`}
        </span>
        <span className="sr-only">{shapeWords(shape)}</span>
      </figcaption>
      <svg
        aria-hidden="true"
        viewBox={`0 0 ${width} ${height}`}
        width={width * (large ? 2 : 1)}
        className="block h-auto max-w-full text-ink"
      >
        {Array.from({ length: count + 1 }, (_, i) => (
          <path
            // biome-ignore lint/suspicious/noArrayIndexKey: a fret is its place
            key={i}
            d={`M${SIDE} ${TOP + i * FRET}H${right}`}
            className={i === 0 && first === 1 ? "stroke-ink" : "stroke-control"}
            strokeWidth={i === 0 && first === 1 ? 4 : 1}
          />
        ))}
        {first === 1 ? null : (
          <text x={right + 16} y={TOP + FRET / 2 + 5} className="fill-quiet text-[13px]">
            {first} fr
          </text>
        )}
        {shape.frets.map((fret, i) => {
          const x = SIDE + (mirrored ? strings - 1 - i : i) * GAP;
          const finger = shape.fingers[i] ?? null;
          const y = TOP + ((fret ?? 0) - first) * FRET + FRET / 2;
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a string is its place
            <g key={i}>
              <path d={`M${x} ${TOP}V${bottom}`} className="stroke-control" />
              <StringMark fret={fret} x={x} />
              {fret === null || fret === 0 ? null : (
                <>
                  <circle cx={x} cy={y} r={7.5} fill="currentColor" />
                  {finger === null ? null : (
                    <text
                      x={x}
                      y={y + 4}
                      textAnchor="middle"
                      className="fill-ground text-[11px] font-semibold"
                    >
                      {finger}
                    </text>
                  )}
                </>
              )}
            </g>
          );
        })}
      </svg>
      {sound === null ? null : <p className="caption">{sound}</p>}
      {remark === null ? null : <p className="caption">{remark}</p>}
    </figure>
  );
};
