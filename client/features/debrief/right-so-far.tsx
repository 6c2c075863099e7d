import { useEffect, useState } from "react";
import { inSlices } from "#client/pieces/in-slices.ts";
import { useViewpoint, useWholeBoard } from "#client/store/hooks.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { type HitRate, hitRate, outcomesOf } from "#shared/selectors/hit-rate.ts";

/** How often "ready" was right at the gigs so far; for leaders, about songs and never about players. */
export const RightSoFar = () => {
  const board = useWholeBoard();
  const [{ today }] = useViewpoint();
  const [rate, setRate] = useState<HitRate | null>(null);
  useEffect(
    () => inSlices(outcomesOf(board, today), (outcomes) => setRate(hitRate(outcomes))),
    [board, today],
  );
  if (rate === null) return <p className="caption min-h-24 py-3">Looking at the gigs so far</p>;
  return (
    <div className="py-2">
      <p>{rate.sentence}</p>
      <Accordion summary="By the score of the day before">
        <table className="my-2 w-full max-w-md text-left">
          <thead>
            <tr className="caption">
              <th scope="col">Score</th>
              <th scope="col">Songs</th>
              <th scope="col">Ran clean</th>
            </tr>
          </thead>
          <tbody>
            {rate.bands.map(({ name, songs, clean }) => (
              <tr key={name} className="border-t border-line">
                <th scope="row" className="py-1 font-normal">
                  {name}
                </th>
                <td>{songs}</td>
                <td>{clean}</td>
              </tr>
            ))}
          </tbody>
        </table>
        <p className="caption">
          Mean squared miss (Brier 1950): {rate.brier.toFixed(2)}; 0 is never wrong; saying “half and half”
          every time gets 0.25. What was marked after that day is read one step back, as the board keeps no
          more.
        </p>
      </Accordion>
    </div>
  );
};
