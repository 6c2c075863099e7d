import { useState } from "react";
import { songLink } from "#client/pieces/links.ts";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useSongs } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { SectionHeading } from "#client/ui/page-heading.tsx";
import { Select } from "#client/ui/select.tsx";
import { TextField } from "#client/ui/text-field.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import type { Gig } from "#shared/board/band.ts";
import { requestForGig } from "#shared/commands/arrange-gig.ts";
import type { SetOrder } from "#shared/order/set-facts.ts";

export interface RequestsProps {
  readonly gig: Gig;
  readonly order: SetOrder;
  /** Songs that are gig-ready or let pass. */
  readonly ready: ReadonlySet<string>;
  readonly titleOf: (song: string) => string;
  readonly canChange: boolean;
  readonly onPutIn: (song: string) => void;
}

/** Songs that somebody asked the band for, and what becomes of each. */
export const Requests = ({ gig, order, ready, titleOf, canChange, onPutIn }: RequestsProps) => {
  const act = useAct();
  const href = useHref();
  const songs = useSongs();
  const asked = [...gig.requests].filter(([song]) => songs.has(song));
  const stateOf = (song: string): string => {
    const block = order.findIndex((each) => each.includes(song));
    if (block >= 0) return order.length === 1 ? "in it" : `in block ${block + 1}`;
    if (gig.banned.includes(song)) return "not tonight";
    return ready.has(song) ? "ready, and not in it" : "not ready";
  };
  const takeBack = (song: string) =>
    act(requestForGig, { gig: gig.id, song, askedBy: "" }, `Nobody asked for ${titleOf(song)}`);
  if (asked.length === 0 && !canChange) return null;
  return (
    <section aria-labelledby="requests">
      <SectionHeading title={<span id="requests">Requests</span>} aside={asked.length} />
      <ul>
        {asked.map(([song, by]) => (
          <li key={song} className="flex flex-wrap items-center gap-x-3 border-b border-line py-1.5">
            <p className="w-full min-w-0 laptop:w-auto laptop:flex-1">
              <TextLink href={href(songLink(song))}>{titleOf(song)}</TextLink>
              <span className="caption block break-words">
                {by} · {stateOf(song)}
              </span>
            </p>
            {canChange ? (
              <>
                {order.flat().includes(song) || gig.banned.includes(song) ? null : (
                  <Button tone="quiet" onClick={() => onPutIn(song)}>
                    Put in<span className="sr-only"> {titleOf(song)}</span>
                  </Button>
                )}
                <Button tone="quiet" onClick={() => takeBack(song)}>
                  Strike it<span className="sr-only">: {titleOf(song)}</span>
                </Button>
              </>
            ) : null}
          </li>
        ))}
      </ul>
      {canChange ? <NewRequest gig={gig} titleOf={titleOf} /> : null}
    </section>
  );
};

const NewRequest = ({ gig, titleOf }: Pick<RequestsProps, "gig" | "titleOf">) => {
  const act = useAct();
  const songs = useSongs();
  const [song, setSong] = useState("");
  const [by, setBy] = useState("");
  const others = [...songs.keys()]
    .filter((id) => !gig.requests.has(id))
    .map((id) => ({ value: id, label: titleOf(id) }))
    .sort((a, b) => a.label.localeCompare(b.label));
  const write = () => {
    const askedBy = by.trim() || "somebody";
    if (!act(requestForGig, { gig: gig.id, song, askedBy }, `Asked for: ${titleOf(song)}`)) return;
    setSong("");
    setBy("");
  };
  return (
    <div className="flex flex-wrap items-end gap-3 py-3 no-print">
      <Select
        label="Asked for"
        className="w-64 max-w-full"
        value={song}
        options={[{ value: "", label: "choose a song" }, ...others]}
        onChange={setSong}
      />
      <TextField label="by" className="w-48" maxLength={200} value={by} onChange={setBy} />
      <Button onClick={write} disabled={song === ""}>
        Write it down
      </Button>
    </div>
  );
};
