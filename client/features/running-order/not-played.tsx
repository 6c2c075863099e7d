import { useState } from "react";
import { useAct } from "#client/pieces/use-act.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import type { Gig } from "#shared/board/band.ts";
import { pinInGig } from "#shared/commands/arrange-gig.ts";
import type { SetBrief, SetOrder } from "#shared/order/set-facts.ts";
import { whyNot } from "#shared/selectors/order-words.ts";

export interface NotPlayedProps {
  readonly gig: Gig;
  readonly brief: SetBrief;
  readonly order: SetOrder;
  readonly titleOf: (song: string) => string;
  readonly canChange: boolean;
  readonly onPutIn: (song: string) => void;
}

/** Ready songs that are not in the order, and songs ruled out for the night. */
export const NotPlayed = ({ gig, brief, order, titleOf, canChange, onPutIn }: NotPlayedProps) => {
  const act = useAct();
  const [asked, setAsked] = useState<string | null>(null);
  const played = new Set(order.flat());
  const left = brief.songs.filter(({ id }) => !played.has(id));
  const byTitle = (a: string, b: string): number => titleOf(a).localeCompare(titleOf(b));
  const pin = (song: string, to: "not tonight" | "", label: string): void => {
    act(pinInGig, { gig: gig.id, song, pin: to }, label);
  };
  return (
    <>
      <SectionHeading title="Ready, and not in it" aside={left.length} />
      {left.length === 0 ? <p className="text-quiet">Every song that is ready is called.</p> : null}
      <ul>
        {left
          .map(({ id }) => id)
          .sort(byTitle)
          .map((song) => (
            <li key={song} className="border-b border-line py-1.5">
              <div className="flex flex-wrap items-center gap-x-3">
                <span className="w-full min-w-0 laptop:w-auto laptop:flex-1">{titleOf(song)}</span>
                <Button
                  tone="quiet"
                  aria-expanded={asked === song}
                  onClick={() => setAsked(asked === song ? null : song)}
                >
                  Why not?<span className="sr-only"> {titleOf(song)}</span>
                </Button>
                {canChange ? (
                  <>
                    <Button tone="quiet" onClick={() => onPutIn(song)}>
                      Put in<span className="sr-only"> {titleOf(song)}</span>
                    </Button>
                    <Button
                      tone="quiet"
                      onClick={() => pin(song, "not tonight", `Not tonight: ${titleOf(song)}`)}
                    >
                      Not tonight<span className="sr-only">: {titleOf(song)}</span>
                    </Button>
                  </>
                ) : null}
              </div>
              {asked === song ? (
                <p className="pb-2 text-quiet">{whyNot(brief, order, song, titleOf)}</p>
              ) : null}
            </li>
          ))}
      </ul>
      {gig.banned.length === 0 ? null : (
        <>
          <SectionHeading title="Not tonight" aside={gig.banned.length} />
          <ul>
            {gig.banned.map((song) => (
              <li key={song} className="flex items-center gap-3 border-b border-line py-1.5">
                <span className="min-w-0 flex-1">{titleOf(song)}</span>
                {canChange ? (
                  <Button tone="quiet" onClick={() => pin(song, "", `May be played: ${titleOf(song)}`)}>
                    May be played<span className="sr-only">: {titleOf(song)}</span>
                  </Button>
                ) : null}
              </li>
            ))}
          </ul>
        </>
      )}
    </>
  );
};
