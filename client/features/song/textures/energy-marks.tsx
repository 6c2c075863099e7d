import type { Energy } from "#shared/selectors/textures/energy.ts";
import { jointWords, outOf100 } from "#shared/selectors/textures/energy-words.ts";
import type { PaintedSection } from "#shared/selectors/textures/picture.ts";

const liftSign = (lift: number): string => {
  const by = outOf100(lift);
  return by === 0 ? "" : by > 0 ? `+${by}` : `−${-by}`;
};

/** Energy of a section as a number, and the lift into it. */
export const EnergyFigure = ({ energy, section }: { readonly energy: Energy; readonly section: number }) => {
  const own = energy.sections[section] ?? null;
  const joint = section === 0 ? null : (energy.joints[section - 1] ?? null);
  if (own === null) return null;
  return (
    <span className="text-small">
      <span className="sr-only">Energy </span>
      <span className="font-semibold">{outOf100(own)}</span>
      {joint === null ? null : (
        <>
          <span aria-hidden="true" className="text-quiet">
            {" "}
            {liftSign(joint.lift)}
          </span>
          <span className="sr-only">, {jointWords(joint)}</span>
        </>
      )}
    </span>
  );
};

const TALL = 100;

/** The line of a section's bars, to the scale of its column. Drawn only: the words stand beside it. */
export const EnergyColumn = ({
  section,
  energy,
  at,
}: {
  readonly section: PaintedSection;
  readonly energy: Energy;
  readonly at: number;
}) => {
  const bars = energy.bars[at] ?? null;
  const steps = (bars ?? []).map((level, bar) => {
    const y = 4 + (1 - level) * (TALL - 8);
    return `${bar === 0 ? "M0" : "L"}${bar === 0 ? "" : bar} ${y}H${bar + 1}`;
  });
  return (
    <div
      className="min-w-10 basis-0 overflow-hidden border-r border-b border-control"
      style={{ flexGrow: section.bars }}
    >
      <svg
        aria-hidden="true"
        viewBox={`0 0 ${section.bars} ${TALL}`}
        preserveAspectRatio="none"
        className="block h-12 w-full print:h-5"
      >
        <path
          d={steps.join("")}
          fill="none"
          strokeWidth={2}
          vectorEffect="non-scaling-stroke"
          className="stroke-ink"
        />
      </svg>
      <span className="flex flex-wrap gap-x-1 px-0.5 pb-0.5 text-small leading-tight">
        <EnergyFigure energy={energy} section={at} />
      </span>
    </div>
  );
};
