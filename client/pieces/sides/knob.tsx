export interface KnobProps {
  readonly label: string;
  readonly value: number;
  readonly most: number;
}

const SIZE = 64;
const MIDDLE = SIZE / 2;
const RADIUS = 20;
/** A knob turns through 300 degrees: from seven o'clock to five. */
const TURN = 300;

const point = (share: number, radius: number): readonly [x: number, y: number] => {
  const angle = ((share * TURN - TURN / 2 - 90) * Math.PI) / 180;
  return [MIDDLE + radius * Math.cos(angle), MIDDLE + radius * Math.sin(angle)];
};

/** A knob as it stands on an amplifier, its number and name under it. Lines only, so that it prints. */
export const Knob = ({ label, value, most }: KnobProps) => {
  const [x, y] = point(value / most, RADIUS - 3);
  return (
    <div className="w-20 text-center print:w-14" aria-hidden="true">
      <svg
        aria-hidden="true"
        viewBox={`0 0 ${SIZE} ${SIZE}`}
        className="mx-auto block w-16 text-ink print:w-9"
      >
        {Array.from({ length: most + 1 }, (_, mark) => {
          const [fromX, fromY] = point(mark / most, RADIUS + 4);
          const [toX, toY] = point(mark / most, RADIUS + (mark % 5 === 0 ? 10 : 7));
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a mark is its number
            <path key={mark} d={`M${fromX} ${fromY}L${toX} ${toY}`} className="stroke-quiet" />
          );
        })}
        <circle cx={MIDDLE} cy={MIDDLE} r={RADIUS} fill="none" stroke="currentColor" strokeWidth={1.5} />
        <path
          d={`M${MIDDLE} ${MIDDLE}L${x} ${y}`}
          stroke="currentColor"
          strokeWidth={3}
          strokeLinecap="round"
        />
      </svg>
      <span className="block font-semibold print:inline">{value}</span>{" "}
      <span className="caption block print:inline">{label}</span>
    </div>
  );
};
