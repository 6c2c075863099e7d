import { useMemo, useRef } from "react";
import { dayText } from "#client/pieces/day-text.ts";
import { gigLink } from "#client/pieces/links.ts";
import { NoGig } from "#client/pieces/no-gig.tsx";
import { useAct } from "#client/pieces/use-act.ts";
import { useHref } from "#client/pieces/use-href.ts";
import { useNames } from "#client/pieces/use-names.ts";
import { useSteps } from "#client/pieces/use-steps.ts";
import { useAuthor, useSongs, useViewpoint } from "#client/store/hooks.ts";
import { Button } from "#client/ui/button.tsx";
import { PageHeading } from "#client/ui/page-heading.tsx";
import { TextLink } from "#client/ui/text-link.tsx";
import { VisuallyHidden } from "#client/ui/visually-hidden.tsx";
import type { GigSong } from "#shared/board/band.ts";
import { arrangeGig, pinInGig } from "#shared/commands/arrange-gig.ts";
import { bestInsertion } from "#shared/order/insertions.ts";
import type { SetOrder } from "#shared/order/set-facts.ts";
import { readOrder } from "#shared/selectors/order-words.ts";
import { ArcFields } from "./arc-fields.tsx";
import { BlocksField } from "./blocks-field.tsx";
import { NotPlayed } from "./not-played.tsx";
import { putAt, stepped, without } from "./order-changes.ts";
import { OrderList } from "./order-list.tsx";
import { ProposedOrder } from "./proposed-order.tsx";
import { Requests } from "./requests.tsx";
import { PIN_WORDS, useRowActions } from "./row-tools.tsx";
import { useDrag } from "./use-drag.ts";
import { type GigOrder, useOrder } from "./use-order.ts";
import { useProposal } from "./use-proposal.ts";

/** What is played in which order, and what each order costs: proposed, pinned, dragged, explained. */
export const OrderScreen = ({ gig }: { readonly gig: string }) => {
  const reading = useOrder(gig);
  return reading === null ? <NoGig title="Running order" /> : <Order key={gig} reading={reading} />;
};

const Order = ({ reading }: { readonly reading: GigOrder }) => {
  const { gig, brief, order, ready } = reading;
  const act = useAct();
  const href = useHref();
  const names = useNames();
  const files = useSongs();
  const [{ today }] = useViewpoint();
  const canChange = useAuthor().role !== "guest";
  const { proposal, propose, putAway } = useProposal(gig.id, brief);
  const list = useRef<HTMLDivElement | null>(null);
  const titleOf = (song: string): string => files.get(song)?.song.title ?? "a song that is gone";
  const songs = new Map(brief.songs.map((song) => [song.id, song]));
  const standsReady = new Set(ready);
  const notReady = new Set(brief.songs.map(({ id }) => id).filter((id) => !standsReady.has(id)));
  const pins = new Map(gig.songs.map(({ song, pin }) => [song, pin]));
  const arrange = (blocks: SetOrder, label: string, quiet = false): boolean =>
    act(arrangeGig, { gig: gig.id, blocks: blocks.map((block) => [...block]) }, label, { quiet });
  const drag = useDrag(list, (song, { block, at }) => {
    const was = order[block]?.indexOf(song) ?? -1;
    // Its own row goes first, so what lies behind it moves up by one.
    arrange(putAt(order, song, block, was >= 0 && was < at ? at - 1 : at), `Moved: ${titleOf(song)}`, true);
  });
  const flat = order.flat();
  const steps = useSteps({
    items: flat.map((id) => ({ id, name: titleOf(id) })),
    pastEnds: true,
    onMove: (song, index) =>
      arrange(stepped(order, song, index < flat.indexOf(song) ? -1 : 1), `Moved: ${titleOf(song)}`, true),
  });
  const putIn = (song: string): void => {
    const last = { block: order.length - 1, at: order.at(-1)?.length ?? 0 };
    // What is not ready is not weighed; it goes to the end, where it is seen.
    const place = songs.has(song) ? bestInsertion(brief, order, song) : last;
    if (place !== null) arrange(putAt(order, song, place.block, place.at), `Called: ${titleOf(song)}`);
  };
  const pin = (song: string, to: GigSong["pin"]): void => {
    act(
      pinInGig,
      { gig: gig.id, song, pin: to },
      to === "" ? `Free: ${titleOf(song)}` : `${titleOf(song)} ${PIN_WORDS[to]}`,
    );
  };
  const actions = useRowActions({
    move: steps.move,
    pin,
    takeOut: (song) => arrange(without(order, song), `Taken out: ${titleOf(song)}`),
    onKeyDown: (song, event) => steps.onKeyDown(song)(event),
    handle: drag.handle,
  });
  const blocks = useMemo(() => readOrder(order, brief, names), [order, brief, names]);
  return (
    <div className={proposal === null ? "max-w-4xl" : ""}>
      <PageHeading
        title="Running order"
        above={
          <TextLink href={href(gigLink(gig.id))}>
            {gig.name || gig.place || dayText(gig.date, today)}
          </TextLink>
        }
      />
      {canChange ? (
        <div className="no-print">
          <BlocksField key={`${gig.blocks.join()}/${gig.minutes}/${gig.talk}`} gig={gig} />
          <ArcFields gig={gig} canChange />
          <div className="flex flex-wrap items-center gap-3 py-3">
            <Button tone={proposal === null ? "main" : "plain"} onClick={propose}>
              {order.flat().length === 0 ? "Propose an order" : "Propose a better order"}
            </Button>
            <p className="caption max-w-xl">
              From songs that are ready or called. What is pinned stays where it is.
            </p>
          </div>
        </div>
      ) : null}
      <div className={proposal === null ? "" : "grid gap-x-12 laptop:grid-cols-2"}>
        <div
          ref={(element) => {
            list.current = element;
            steps.list.current = element;
          }}
          className="min-w-0"
        >
          <OrderList
            label="As it stands"
            blocks={blocks}
            songs={songs}
            titleOf={titleOf}
            notReady={notReady}
            tools={{
              actions: canChange ? actions : null,
              pins,
              requests: gig.requests,
              dragged: drag.song,
              landing: drag.landing,
            }}
          />
        </div>
        {proposal === null ? null : (
          <ProposedOrder
            proposal={proposal}
            standing={order}
            brief={brief}
            songs={songs}
            names={names}
            titleOf={titleOf}
            notReady={notReady}
            onUse={() => {
              if (arrange(proposal.order, "The proposed order")) putAway();
            }}
            onPutAway={putAway}
          />
        )}
      </div>
      <VisuallyHidden>
        <span role="status">{steps.said}</span>
      </VisuallyHidden>
      <div className="no-print">
        <Requests
          gig={gig}
          order={order}
          ready={standsReady}
          titleOf={titleOf}
          canChange={canChange}
          onPutIn={putIn}
        />
        <NotPlayed
          gig={gig}
          brief={brief}
          order={order}
          titleOf={titleOf}
          canChange={canChange}
          onPutIn={putIn}
        />
      </div>
      <Button className="mt-6 no-print" onClick={() => window.print()}>
        Print the running order
      </Button>
    </div>
  );
};
