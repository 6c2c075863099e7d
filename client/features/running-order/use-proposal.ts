import { useEffect, useRef, useState } from "react";
import { inSlices } from "#client/pieces/in-slices.ts";
import { seedOf } from "#shared/lib/seeded.ts";
import { compile } from "#shared/order/compiled.ts";
import { canBeExact, orderingExactly } from "#shared/order/exact-order.ts";
import type { SetBrief, SetOrder } from "#shared/order/set-facts.ts";
import { improving, quick } from "#shared/order/solve-order.ts";

export interface Proposal {
  readonly order: SetOrder;
  /** The search still looks for something better. */
  readonly searching: boolean;
  /** No order costs less. */
  readonly cheapest: boolean;
}

export interface Proposing {
  /** Null = none was asked for, or it was put away. */
  readonly proposal: Proposal | null;
  readonly propose: () => void;
  readonly putAway: () => void;
}

/**
 * Proposes an order: a first answer at once, a better one within a second or two, searched in small stretches so that
 * the page goes on answering; few songs are tried in every order there is. The gig's id is the seed, so every device proposes the same.
 */
export const useProposal = (gig: string, brief: SetBrief): Proposing => {
  const [proposal, setProposal] = useState<Proposal | null>(null);
  const stop = useRef<(() => void) | null>(null);
  const putAway = (): void => {
    stop.current?.();
    stop.current = null;
    setProposal(null);
  };
  useEffect(() => () => stop.current?.(), []);
  const propose = (): void => {
    stop.current?.();
    const compiled = compile(brief);
    const first = quick(compiled);
    setProposal({ order: first, searching: true, cheapest: false });
    const cheapest = canBeExact(brief);
    const steps = cheapest ? orderingExactly(compiled) : improving(compiled, first, seedOf(gig));
    stop.current = inSlices(steps, (found) =>
      setProposal({ order: found.at(-1) ?? first, searching: false, cheapest }),
    );
  };
  return { proposal, propose, putAway };
};
