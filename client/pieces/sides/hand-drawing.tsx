import type { SideValue } from "#shared/board/sides/detail-sides.ts";
import { useNeck } from "../use-neck.ts";

const FRET = 44;
const [TOP, HEIGHT, SIDE] = [8, 40, 8];
const FINGERS = [
  ["index", 1],
  ["middle", 2],
  ["ring", 3],
  ["little", 4],
] as const;

/** A stretch of neck with the fingers over their frets: the nut at the left, or at the right for left-handed players. */
export const HandDrawing = ({ value }: { readonly value: SideValue<"hand"> }) => {
  const left = useNeck().neck === "left";
  const from = value.from ?? 1;
  const count = (value.to ?? from) - from + 1;
  const width = 2 * SIDE + count * FRET;
  const at = (fret: number): number => {
    const x = SIDE + (fret - from + 0.5) * FRET;
    return left ? width - x : x;
  };
  const frets = Array.from({ length: count }, (_, i) => from + i);
  return (
    <svg
      aria-hidden="true"
      viewBox={`0 0 ${width} ${TOP + HEIGHT + 22}`}
      width={width}
      className="block h-auto max-w-full text-ink print:w-32"
    >
      {Array.from({ length: count + 1 }, (_, i) => {
        const x = SIDE + i * FRET;
        return (
          // biome-ignore lint/suspicious/noArrayIndexKey: a fret is its place
          <path key={i} d={`M${x} ${TOP}v${HEIGHT}`} className="stroke-control" strokeWidth={1.5} />
        );
      })}
      <path
        d={`M${SIDE} ${TOP}H${width - SIDE}M${SIDE} ${TOP + HEIGHT}H${width - SIDE}`}
        className="stroke-control"
      />
      {frets.map((fret) => (
        <text
          key={fret}
          x={at(fret)}
          y={TOP + HEIGHT + 16}
          textAnchor="middle"
          className="fill-quiet text-[13px]"
        >
          {fret}
        </text>
      ))}
      {FINGERS.map(([finger, number]) => {
        const fret = value[finger];
        if (fret === null) return null;
        const sharing = FINGERS.filter(([other]) => value[other] === fret).map(([other]) => other);
        const y = TOP + (HEIGHT * (sharing.indexOf(finger) + 1)) / (sharing.length + 1);
        return (
          <g key={finger}>
            <circle cx={at(fret)} cy={y} r={sharing.length > 2 ? 6 : 9} fill="currentColor" />
            <text
              x={at(fret)}
              y={y + 4}
              textAnchor="middle"
              className="fill-ground text-[12px] font-semibold"
            >
              {number}
            </text>
          </g>
        );
      })}
    </svg>
  );
};
