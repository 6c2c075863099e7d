import { useMemo } from "react";
import { Button } from "#client/ui/button.tsx";
import type { SetBrief, SetOrder, SetSong } from "#shared/order/set-facts.ts";
import { listed, type Names } from "#shared/readiness/names.ts";
import { compareOrders, readOrder } from "#shared/selectors/order-words.ts";
import { OrderList } from "./order-list.tsx";
import type { Proposal } from "./use-proposal.ts";

export interface ProposedOrderProps {
  readonly proposal: Proposal;
  readonly standing: SetOrder;
  readonly brief: SetBrief;
  readonly songs: ReadonlyMap<string, SetSong>;
  readonly names: Names;
  readonly titleOf: (song: string) => string;
  readonly notReady: ReadonlySet<string>;
  readonly onUse: () => void;
  readonly onPutAway: () => void;
}

const sameOrder = (a: SetOrder, b: SetOrder): boolean => JSON.stringify(a) === JSON.stringify(b);

const NOT_COMPARED = { better: [], worse: [] };

/** What the search proposes, what it is better and worse at, and the two ways out. */
export const ProposedOrder = ({ proposal, standing, brief, names, ...props }: ProposedOrderProps) => {
  const { order, searching, cheapest } = proposal;
  // Nobody reads of a first answer what it is better at.
  const { better, worse } = searching ? NOT_COMPARED : compareOrders(standing, order, brief);
  const blocks = useMemo(() => readOrder(order, brief, names), [order, brief, names]);
  const asItIs = sameOrder(order, standing);
  const words = [
    better.length === 0 ? "" : `Better: ${listed(better)}.`,
    worse.length === 0 ? "" : `Worse: ${listed(worse)}.`,
  ].filter((sentence) => sentence !== "");
  return (
    <section aria-label="Another order" className="min-w-0 max-laptop:order-first">
      <p role="status" className="min-h-6">
        {searching
          ? "A first answer; looking for a better one."
          : asItIs
            ? cheapest
              ? "No order is better than what stands."
              : "Nothing better was found than what stands."
            : [...words, cheapest ? "Every order of these songs was weighed." : ""].join(" ").trim() ||
              "Another order that is about as good."}
      </p>
      <div className="flex flex-wrap gap-3 py-3">
        <Button tone="main" disabled={searching || asItIs} onClick={props.onUse}>
          Use this order
        </Button>
        <Button onClick={props.onPutAway}>Leave it as it is</Button>
      </div>
      <OrderList
        label="Proposed"
        blocks={blocks}
        songs={props.songs}
        titleOf={props.titleOf}
        notReady={props.notReady}
      />
    </section>
  );
};
