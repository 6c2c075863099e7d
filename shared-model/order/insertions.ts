/** Why a song is not in an order: the cheapest place it could take, and what that would cost. */
import type { SetBrief, SetOrder } from "./set-facts.ts";
import { NO_COST, ORDER_TERMS, type OrderTerms, orderTerms, sumOfTerms } from "./terms.ts";

export interface Insertion {
  readonly block: number;
  /** Place in the block, from 0. */
  readonly at: number;
  /** By how much each term changes; they sum to `cost`. */
  readonly terms: OrderTerms;
  readonly cost: number;
}

const minus = (a: OrderTerms, b: OrderTerms): OrderTerms => {
  const terms = { ...NO_COST };
  for (const term of ORDER_TERMS) terms[term] = a[term] - b[term];
  return terms;
};

/** The cheapest place for a song in an order it is not in; null where there is no block. */
export const bestInsertion = (brief: SetBrief, order: SetOrder, song: string): Insertion | null => {
  const before = orderTerms(order, brief);
  let best: Insertion | null = null;
  for (const [block, songs] of order.entries())
    for (let at = 0; at <= songs.length; at += 1) {
      const tried = order.map((each, b) =>
        b === block ? [...each.slice(0, at), song, ...each.slice(at)] : each,
      );
      const terms = minus(orderTerms(tried, brief), before);
      const cost = sumOfTerms(terms);
      if (best === null || cost < best.cost) best = { block, at, terms, cost };
    }
  return best;
};
