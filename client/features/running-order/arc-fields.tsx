import { useAct } from "#client/pieces/use-act.ts";
import { Accordion } from "#client/ui/accordion.tsx";
import { Button } from "#client/ui/button.tsx";
import type { Gig } from "#shared/board/band.ts";
import { reviseGig } from "#shared/commands/plan-gig.ts";
import { USUAL_ARC } from "#shared/selectors/running-order.ts";

const PLACES = ["first song", "a quarter in", "half-way", "three quarters in", "last song"] as const;
const WORDS = ["calm", "easy", "middling", "big", "biggest"] as const;

/** The energy a leader wants over the night, drawn by five sliders. */
export const ArcFields = ({ gig, canChange }: { readonly gig: Gig; readonly canChange: boolean }) => {
  const act = useAct();
  const arc = gig.arc.length === PLACES.length ? gig.arc : USUAL_ARC;
  const change = (place: number, value: number): void => {
    const next = arc.map((old, i) => (i === place ? value : old));
    act(reviseGig, { gig: gig.id, arc: next }, "The arc of the night", { quiet: true });
  };
  const points = arc.map((value, i) => `${10 + i * 45},${58 - value * 50}`).join(" ");
  return (
    <Accordion
      summary={
        <span className="flex items-center gap-3">
          Energy over the night
          <svg aria-hidden="true" viewBox="0 0 200 64" className="h-8 w-24">
            <polyline points={points} fill="none" className="stroke-ink" strokeWidth="3" />
          </svg>
        </span>
      }
    >
      <div className="max-w-md py-2">
        {PLACES.map((place, i) => (
          <label key={place} className="flex min-h-12 items-center gap-3">
            <span className="caption w-32 shrink-0">{place}</span>
            <input
              type="range"
              min={0}
              max={4}
              step={1}
              disabled={!canChange}
              value={Math.round((arc[i] ?? 0) * 4)}
              aria-valuetext={WORDS[Math.round((arc[i] ?? 0) * 4)]}
              onChange={(event) => change(i, Number(event.target.value) / 4)}
              className="min-h-11 min-w-0 flex-1 accent-accent"
            />
            <span className="caption w-16">{WORDS[Math.round((arc[i] ?? 0) * 4)]}</span>
          </label>
        ))}
        {gig.arc.length === 0 || !canChange ? null : (
          <Button tone="quiet" onClick={() => act(reviseGig, { gig: gig.id, arc: [] }, "The usual arc")}>
            The usual arc
          </Button>
        )}
      </div>
    </Accordion>
  );
};
