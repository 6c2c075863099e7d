import Printer from "lucide-react/icons/printer";
import { useState } from "react";
import { dayText } from "#client/pieces/day-text.ts";
import { recall, remember } from "#client/pieces/device-memory.ts";
import { gigLink } from "#client/pieces/links.ts";
import { NoGig } from "#client/pieces/no-gig.tsx";
import { useHref } from "#client/pieces/use-href.ts";
import { useBoardId, useViewpoint, useWholeBoard } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { Checkbox } from "#client/ui/checkbox.tsx";
import { PageHeading, SectionHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { LOAD_IN_CAUTION, loadIn } from "#shared/selectors/load-in.ts";

const read = (name: string): ReadonlySet<string> => {
  try {
    const kept: unknown = JSON.parse(recall(name) ?? "[]");
    return new Set(Array.isArray(kept) ? kept.filter((id) => typeof id === "string") : []);
  } catch {
    return new Set();
  }
};

/** What was ticked for a gig on this device. */
const useTicks = (gig: string): readonly [ReadonlySet<string>, (id: string, on: boolean) => void] => {
  const name = `load-in.${useBoardId()}.${gig}`;
  const [ticks, setTicks] = useState(() => read(name));
  const tick = (id: string, on: boolean): void => {
    const next = new Set(ticks);
    if (on) next.add(id);
    else next.delete(id);
    remember(name, JSON.stringify([...next]));
    setTicks(next);
  };
  return [ticks, tick];
};

/** What a band looks after before a night: ticked on one device, or on paper. */
export const LoadInScreen = ({ gig: id }: { readonly gig: string }) => {
  const board = useWholeBoard();
  const href = useHref();
  const [{ today }] = useViewpoint();
  const [ticks, tick] = useTicks(id);
  const groups = loadIn(board, id);
  const gig = board.gigs.find((one) => one.id === id);
  if (groups === null || gig === undefined) return <NoGig title="Load in" />;
  const lines = groups.flatMap((group) => group.lines);
  const done = lines.filter((line) => ticks.has(line.id)).length;
  return (
    <div className="max-w-3xl">
      <PageHeading
        title="Load in"
        above={[gig.name || gig.place, dayText(gig.date, today)].filter((part) => part !== "").join(" · ")}
        aside={
          <p className="no-print">
            {done} of {lines.length}
          </p>
        }
      />
      <p>{LOAD_IN_CAUTION}</p>
      <div className="print:columns-2 print:gap-10">
        {groups.map((group) => (
          <section key={group.title} aria-label={group.title} className="break-inside-avoid">
            <SectionHeading title={group.title} />
            <ul>
              {group.lines.map((line) => (
                <li key={line.id}>
                  <Checkbox
                    size="room"
                    className="py-1 print:min-h-0 print:py-0.5"
                    label={line.text}
                    checked={ticks.has(line.id)}
                    onChange={(on) => tick(line.id, on)}
                  />
                </li>
              ))}
            </ul>
          </section>
        ))}
      </div>
      <div className="no-print mt-8 flex flex-wrap items-center gap-4 border-t border-line pt-4">
        <Button icon={Printer} onClick={() => window.print()}>
          Print
        </Button>
        <TextLink standing href={href(gigLink(id))}>
          Back to the gig
        </TextLink>
        <p className="caption">Ticks stay on this device.</p>
      </div>
    </div>
  );
};
