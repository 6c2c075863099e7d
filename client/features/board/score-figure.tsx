import type { ScoreSlice } from "./slices.ts";

/** Today's points → the night's points. */
export const ScoreFigure = ({ score }: { readonly score: ScoreSlice }) => (
  <>
    <span className="text-quiet">{score.today}</span>
    <span aria-hidden="true" className="text-quiet">
      {" → "}
    </span>
    <span className="sr-only"> % today, </span>
    <span className="font-semibold">{score.night} %</span>
    <span className="sr-only"> on the night{score.mostlyClaims ? "," : ""} </span>
    {score.mostlyClaims ? <span className="caption block font-normal">mostly claims</span> : null}
  </>
);
