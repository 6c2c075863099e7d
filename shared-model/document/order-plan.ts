/** Order keys for records that are put somewhere. Only who adds or moves needs them; reading only compares. */
import { generateKeyBetween } from "fractional-indexing";

const isOrderKey = (key: string | null): boolean => {
  if (key === null) return true;
  try {
    generateKeyBetween(key, null);
    return true;
  } catch {
    return false;
  }
};

/** The key that puts a new record after all of `siblings` (any order). */
export const orderAfterAll = (siblings: Iterable<{ readonly order: string }>): string => {
  let last: string | null = null;
  for (const { order } of siblings) if (isOrderKey(order) && (last === null || order > last)) last = order;
  return generateKeyBetween(last, null);
};

/** A key for the record put at `index`, and new keys for siblings that had to make room. */
export interface OrderPlan {
  readonly order: string;
  readonly rekeyed: ReadonlyMap<string, string>;
}

/**
 * Puts a record at `index` among `siblings` (sorted with `byOrder`, the record itself left out).
 * Two people inserting into one gap get the *same* key and nothing fits between equals: then the siblings
 * behind the gap are re-keyed until the order is strict again.
 */
export const orderAt = (
  siblings: readonly { readonly id: string; readonly order: string }[],
  index: number,
): OrderPlan => {
  const keyAt = (i: number): string | null => {
    const key = siblings[i]?.order ?? null;
    return key !== null && isOrderKey(key) ? key : null;
  };
  const at = Math.max(0, Math.min(index, siblings.length));
  let low = at > 0 ? keyAt(at - 1) : null;
  const next = at < siblings.length ? keyAt(at) : null;
  const fits = next === null ? at === siblings.length : low === null ? at === 0 : low < next;
  const order = generateKeyBetween(low, fits ? next : null);
  const rekeyed = new Map<string, string>();
  low = order;
  for (let i = at; i < siblings.length; i++) {
    const sibling = siblings[i];
    const key = keyAt(i);
    if (sibling === undefined || (key !== null && key > low)) break;
    low = generateKeyBetween(low, null);
    rekeyed.set(sibling.id, low);
  }
  return { order, rekeyed };
};
