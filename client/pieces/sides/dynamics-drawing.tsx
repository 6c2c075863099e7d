import type { SideValue } from "#shared/board/sides/detail-sides.ts";

const SIGNS = ["pp", "p", "mf", "f", "ff"] as const;
const [WIDTH, HEIGHT, SIGN] = [220, 40, 34];

/** The sign of a level at either end, and between them the wedge of printed music where it grows or falls. */
export const DynamicsDrawing = ({ value }: { readonly value: SideValue<"dynamics"> }) => {
  const from = value.from ?? value.to ?? 1;
  const to = value.to ?? from;
  const sign = (level: number, x: number) => (
    <text
      x={x}
      y={HEIGHT / 2 + 7}
      textAnchor="middle"
      className="fill-ink font-serif text-[22px] font-bold italic"
    >
      {SIGNS[level - 1]}
    </text>
  );
  const [left, right, middle] = [SIGN + 8, WIDTH - SIGN - 8, HEIGHT / 2];
  const [point, open] = from < to ? [left, right] : [right, left];
  return (
    <svg
      aria-hidden="true"
      viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
      width={WIDTH}
      className="block h-auto max-w-full text-ink"
    >
      {sign(from, SIGN / 2)}
      {from === to ? null : (
        <>
          <path
            d={`M${open} ${middle - 9}L${point} ${middle}L${open} ${middle + 9}`}
            fill="none"
            stroke="currentColor"
            strokeWidth={1.5}
          />
          {sign(to, WIDTH - SIGN / 2)}
        </>
      )}
    </svg>
  );
};
