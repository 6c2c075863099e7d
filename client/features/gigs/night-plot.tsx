import { useEffect, useState } from "react";
import { dayText } from "#client/pieces/day-text.ts";
import { inSlices } from "#client/pieces/in-slices.ts";
import { planLink } from "#client/pieces/links.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { createGigEyes } from "#client/store/gig-eyes.ts";
import { useBoardStore, useViewpoint, useWholeBoard } from "#client/store/hooks.ts";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Gig } from "#shared/board/band.ts";
import { type CurvePoint, nightCurve } from "#shared/selectors/night-curve.ts";
import { pointsOf } from "#shared/selectors/points.ts";

const WIDTH = 320;
const HEIGHT = 140;
const LEFT = 34;
const RIGHT = 40;

const pathOf = (points: readonly CurvePoint[], value: (point: CurvePoint) => number): string =>
  points
    .map((point, i) => {
      const x = LEFT + ((WIDTH - LEFT - RIGHT) * i) / Math.max(1, points.length - 1);
      return `${i === 0 ? "M" : "L"}${x.toFixed(1)} ${(8 + (1 - value(point)) * (HEIGHT - 28)).toFixed(1)}`;
    })
    .join("");

/** The songs of a gig from today to its night, as a line if nothing happens and one if the plans are carried out. */
export const NightPlot = ({ gig }: { readonly gig: Gig }) => {
  const store = useBoardStore();
  const board = useWholeBoard();
  const href = useHref();
  const [{ today }] = useViewpoint();
  const [points, setPoints] = useState<readonly CurvePoint[] | null>(null);
  useEffect(() => {
    const { view } = createGigEyes(store)(board, gig.id);
    const inputs = gig.songs.flatMap(({ song }) => view(song)?.input ?? []);
    const { rehearsals, band } = board;
    const source = { inputs, today, gigDay: gig.date, timeZone: band.timeZone, rehearsals };
    return inSlices(nightCurve(source), setPoints);
  }, [board, store, gig, today]);
  if (points === null) return <p className="caption min-h-64 py-3">Working it out</p>;
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined)
    return <p className="py-3 text-quiet">No song is called yet.</p>;
  const differs = pointsOf(last.planned) !== pointsOf(last.untouched);
  const end = (value: number): number => 8 + (1 - value) * (HEIGHT - 28);
  return (
    <div className="py-3">
      <p>
        The songs stand at {pointsOf(first.untouched)} % today, taken together. On the night it is{" "}
        {pointsOf(last.untouched)} % if nothing more happens
        {differs ? `, and ${pointsOf(last.planned)} % if the evenings go as planned` : ""}.
      </p>
      <svg
        aria-hidden="true"
        viewBox={`0 0 ${WIDTH} ${HEIGHT}`}
        width={WIDTH}
        height={HEIGHT}
        className="max-w-full"
      >
        {[0, 0.5, 1].map((level) => (
          <g key={level}>
            <path d={`M${LEFT} ${end(level)}H${WIDTH - RIGHT}`} className="stroke-line" />
            <text x="0" y={end(level) + 4} className="fill-quiet text-[11px]">
              {level * 100} %
            </text>
          </g>
        ))}
        <path d={`M${WIDTH - RIGHT} 4V${HEIGHT - 16}`} className="stroke-control" strokeDasharray="3 3" />
        <path
          d={pathOf(points, (point) => point.untouched)}
          fill="none"
          className="stroke-ink"
          strokeWidth="2"
        />
        <text x={WIDTH - RIGHT + 4} y={end(last.untouched) + 4} className="fill-ink text-[12px]">
          {pointsOf(last.untouched)}
        </text>
        {differs ? (
          <>
            <path
              d={pathOf(points, (point) => point.planned)}
              fill="none"
              className="stroke-accent"
              strokeWidth="2"
              strokeDasharray="6 3"
            />
            <text x={WIDTH - RIGHT + 4} y={end(last.planned) + 4} className="fill-accent text-[12px]">
              {pointsOf(last.planned)}
            </text>
          </>
        ) : null}
        <text x={LEFT} y={HEIGHT - 2} className="fill-quiet text-[11px]">
          today
        </text>
        <text x={WIDTH - RIGHT} y={HEIGHT - 2} textAnchor="end" className="fill-quiet text-[11px]">
          {dayText(gig.date, today)}
        </text>
      </svg>
      <p className="caption">
        Solid: nothing more happens.
        {differs ? " Dashed: as planned." : " No evening before it has a plan yet."} An estimate for ordering
        time, no measured probability.
      </p>
      <TextLink standing href={href(planLink())}>
        Plan an evening
      </TextLink>
    </div>
  );
};
