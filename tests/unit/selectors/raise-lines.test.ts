import fc from "fast-check";
import { expect, test } from "vitest";
import { namesOf } from "#shared/readiness/names.ts";
import { raiseMost } from "#shared/readiness/raise.ts";
import { raiseLines } from "#shared/selectors/raise-lines.ts";
import { CROWD, SEATED } from "#tests/support/a-row.ts";
import { laws } from "#tests/support/fuzz.ts";
import { history, MEMBERS } from "#tests/support/histories.ts";
import { aCard, aSong, asked } from "#tests/support/ready-song.ts";

const names = namesOf({ chairs: SEATED, people: CROWD });

test("each action reads as something to do, and names what to open", () => {
  const file = aSong({ cards: [aCard("c", { kind: "ending", chairs: ["gt", "bs"] })] });
  const input = { ...asked(file, 20, 27), lineUp: new Map(asked(file, 20).lineUp).set("dr", null) };
  const lines = raiseLines(raiseMost(input), file, names, 9);
  expect(lines.map(({ do: what, words, names: about }) => [what, words, about])).toEqual(
    expect.arrayContaining([
      ["run", "One clean run of the whole song by everybody who is in", { song: "song" }],
      [
        "drill",
        "Drill Ending: 'Hit on 4-and' once, clean: Player ifeoma and Player tomasz",
        { song: "song", card: "c", chair: "gt" },
      ],
      ["seat", "Find somebody for Chair dr who comes with it practised", { song: "song", chair: "dr" }],
    ]),
  );
});

test("an empty chair gets one line however many could take it, so nobody is ranked", () => {
  const file = aSong();
  const input = {
    ...asked(file, 20, 27),
    lineUp: new Map([
      ["gt", "tomasz"],
      ["bs", null],
      ["dr", null],
      ["vx", null],
    ]),
  };
  const seats = raiseLines(raiseMost(input, MEMBERS), file, names, 99).filter((line) => line.do === "seat");
  expect(seats.map((line) => line.names.chair).sort()).toEqual(["bs", "dr", "vx"]);
});

test("only what shows as a point or more is listed, biggest first, up to the given number", () => {
  fc.assert(
    fc.property(history, fc.integer({ min: 1, max: 5 }), (input, most) => {
      const lines = raiseLines(raiseMost(input, MEMBERS), input.file, names, most);
      expect(lines.length).toBeLessThanOrEqual(most);
      for (const line of lines) expect(line.difference).toBeGreaterThanOrEqual(0.005);
      const differences = lines.map(({ difference }) => difference);
      expect(differences).toEqual([...differences].sort((a, b) => b - a));
    }),
    laws(),
  );
});
