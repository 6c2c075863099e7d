import type { Id } from "../board/ids.ts";
import { byOrder } from "../document/order-key.ts";
import { orderAt } from "../document/order-plan.ts";

/** Moves one record of a list to `index` among the others and reports every order key that has to change. */
export const moveTo = (
  records: readonly { readonly id: Id; readonly order: string }[],
  id: Id,
  index: number,
  write: (id: Id, order: string) => void,
): void => {
  const others = records.filter((record) => record.id !== id).sort(byOrder);
  const plan = orderAt(others, index);
  write(id, plan.order);
  for (const [moved, order] of plan.rekeyed) write(moved, order);
};
