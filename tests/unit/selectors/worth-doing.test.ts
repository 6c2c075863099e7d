import fc from "fast-check";
import { expect, test } from "vitest";
import { raiseMost } from "#shared/readiness/raise.ts";
import { mostWorth, worthEach } from "#shared/selectors/worth-doing.ts";
import { history } from "#tests/support/histories.ts";
import { aCard, aMark, aSong, asked } from "#tests/support/ready-song.ts";

test("what a drill of a detail is worth is what it raises the song by, to the last bit", () => {
  fc.assert(
    fc.property(history, (input) => {
      const cards = new Set(input.file.cards.slice(0, 2).map(({ id }) => id));
      const found = [...worthEach([{ input, cards }])].map(({ card, difference }) => [card.id, difference]);
      const raised = raiseMost(input).flatMap(({ action, difference }) =>
        action.do === "drill" && cards.has(action.card.id) ? [[action.card.id, difference] as const] : [],
      );
      expect(new Map(found as [string, number][])).toEqual(new Map(raised));
    }),
    { numRuns: 300 },
  );
}, 60_000);

test("a must that nobody has started is worth more than a polish one, and what gains nothing is left out", () => {
  const file = aSong({
    cards: [aCard("must"), aCard("polish", { weight: "polish" }), aCard("empty", { chairs: [] })],
    statuses: new Map([["must", new Map([["tomasz", aMark(0, 1)]])]]),
  });
  const input = asked(file, 30);
  const all = [...worthEach([{ input, cards: new Set(["must", "polish", "empty"]) }])];
  expect(mostWorth(all, 3).map(({ card }) => card.id)).toEqual(["must", "polish"]);
  expect(mostWorth(all, 1)).toHaveLength(1);
  expect(mostWorth([{ song: "song", card: aCard("none"), difference: 0 }], 3)).toEqual([]);
});
