/** Places in a list that several people reorder at once. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { byOrder } from "#shared/document/order-key.ts";
import { orderAfterAll, orderAt } from "#shared/document/order-plan.ts";
import { laws } from "#tests/support/fuzz.ts";

interface Item {
  readonly id: string;
  readonly order: string;
}

/** Lists as they grow from inserting, appending and colliding: equal keys are common, broken ones happen. */
const lists: fc.Arbitrary<readonly Item[]> = fc
  .array(
    fc.record({ index: fc.nat(8), kind: fc.constantFrom("insert", "insert", "append", "twin", "broken") }),
    {
      maxLength: 12,
    },
  )
  .map((steps) => {
    let items: Item[] = [];
    steps.forEach(({ index, kind }, n) => {
      const id = `id-${(n * 7) % 12}`;
      const sorted = [...items].sort(byOrder);
      if (kind === "insert") items = insert(sorted, id, index);
      else if (kind === "append") items = [...items, { id, order: orderAfterAll(items) }];
      else
        items = [
          ...items,
          { id, order: kind === "twin" ? (sorted[index % Math.max(1, sorted.length)]?.order ?? "a0") : "" },
        ];
    });
    return items.sort(byOrder);
  });

const insert = (sorted: readonly Item[], id: string, index: number): Item[] => {
  const { order, rekeyed } = orderAt(sorted, index);
  const moved = sorted.map((item) => ({ ...item, order: rekeyed.get(item.id) ?? item.order }));
  return [...moved, { id, order }].sort(byOrder);
};

test("a record put at a place of a list stands there, and nobody else changes places", () => {
  fc.assert(
    fc.property(lists, fc.nat(14), (sorted, index) => {
      const after = insert(sorted, "new", index);
      const place = Math.min(index, sorted.length);
      expect(after.map(({ id }) => id)).toEqual([
        ...sorted.slice(0, place).map(({ id }) => id),
        "new",
        ...sorted.slice(place).map(({ id }) => id),
      ]);
    }),
    laws(),
  );
});

test("a record appended to a list stands last", () => {
  fc.assert(
    fc.property(lists, (sorted) => {
      const after = [...sorted, { id: "new", order: orderAfterAll(sorted) }].sort(byOrder);
      expect(after.at(-1)?.id).toBe("new");
    }),
    laws(),
  );
});
