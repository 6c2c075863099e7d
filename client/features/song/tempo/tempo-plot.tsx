import { BANDS, type TempoPoint, tempoSpan } from "#shared/selectors/tempo-log.ts";

export interface TempoPlotProps {
  readonly points: readonly TempoPoint[];
  readonly target: number | null;
}

const HEIGHT = 180;
const LEFT = 40;
const STEP = 44;
/** Room for the last take's number. */
const RIGHT = 16;
const SLIPS_DRAWN = 3;

/** A filled dot is clean, a ring wobbled, a cross stopped: told by shape, not by hue. */
const Mark = ({
  x,
  y,
  feel,
}: {
  readonly x: number;
  readonly y: number;
  readonly feel: TempoPoint["feel"];
}) => {
  if (feel === "stopped")
    return <path d={`M${x - 5} ${y - 5}l10 10m0-10l-10 10`} className="stroke-slip" strokeWidth="2" />;
  return (
    <circle
      cx={x}
      cy={y}
      r="5"
      strokeWidth="2"
      className={feel === "clean" ? "fill-ink stroke-ink" : "fill-ground stroke-ink"}
    />
  );
};

/** Takes from left to right, each a line from its first tempo to its last, over the bands about the target. Drawn only: the words stand beside it. */
export const TempoPlot = ({ points, target }: TempoPlotProps) => {
  const { low, high } = tempoSpan(points, target);
  const width = LEFT + Math.max(points.length, 5) * STEP + RIGHT;
  const y = (tempo: number): number => 8 + ((high - tempo) / (high - low)) * (HEIGHT - 28);
  return (
    <svg aria-hidden="true" viewBox={`0 0 ${width} ${HEIGHT}`} width={width} height={HEIGHT}>
      {target === null
        ? null
        : [...BANDS]
            .reverse()
            .map((band, i) => (
              <rect
                key={band}
                x={LEFT}
                width={width - LEFT}
                y={y(target * (1 + band / 100))}
                height={y(target * (1 - band / 100)) - y(target * (1 + band / 100))}
                className={i === 0 ? "fill-line opacity-50" : "fill-line"}
              />
            ))}
      {target === null ? null : (
        <>
          <path d={`M${LEFT} ${y(target)}H${width}`} className="stroke-control" strokeDasharray="4 3" />
          <text x="0" y={y(target) + 4} className="fill-ink text-[13px] font-semibold">
            {target}
          </text>
        </>
      )}
      {points.map(({ take, start, end, feel, slips }, i) => {
        const x = LEFT + STEP * (i + 0.5);
        const last = end ?? start ?? low;
        return (
          <g key={take}>
            {start === null || end === null ? null : (
              <path d={`M${x} ${y(start)}V${y(end)}`} className="stroke-ink" strokeWidth="2" />
            )}
            {start === null || end === null ? null : (
              <path d={`M${x - 5} ${y(start)}h10`} className="stroke-ink" strokeWidth="2" />
            )}
            <Mark x={x} y={y(last)} feel={feel} />
            <text x={x + 9} y={y(last) + 4} className="fill-quiet text-[12px]">
              {last}
            </text>
            {Array.from({ length: Math.min(SLIPS_DRAWN, slips) }, (_, n) => (
              <path
                // biome-ignore lint/suspicious/noArrayIndexKey: one triangle is like another
                key={n}
                d={`M${x - 4 + (n - (Math.min(SLIPS_DRAWN, slips) - 1) / 2) * 10} ${HEIGHT - 9}h8l-4 7z`}
                className="fill-slip"
              />
            ))}
          </g>
        );
      })}
    </svg>
  );
};
