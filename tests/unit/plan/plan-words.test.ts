import fc from "fast-check";
import { describe, expect, test } from "vitest";
import type { Card } from "#shared/board/card.ts";
import type { PlannedBlock } from "#shared/board/rehearsal.ts";
import { blockWords, changesWords, minutesWord, planChanges } from "#shared/selectors/plan-words.ts";
import { laws } from "#tests/support/fuzz.ts";

const block = (song: string, more: Partial<PlannedBlock> = {}): PlannedBlock => ({
  song,
  runs: 1,
  cards: [],
  section: null,
  minutes: 5,
  ...more,
});
const detail = (id: string, kind: string, text: string): Card => ({ id, kind, text, where: {} }) as never;

describe("what a song gets", () => {
  const file = {
    cards: [detail("a", "stop", "all out"), detail("b", "ending", "one hit")],
    sections: [{ id: "ch", name: "Chorus" }],
  } as never;
  test.each([
    [{}, "run"],
    [{ runs: 2 }, "run twice"],
    [{ cards: ["a", "b"] }, "drill Stop: 'all out' and Ending: 'one hit', then run"],
    [{ runs: 0, cards: ["a"] }, "drill Stop: 'all out'"],
    [{ cards: ["a", "b"], section: "ch" }, "drill Chorus (Stop: 'all out' and Ending: 'one hit'), then run"],
    [{ cards: ["gone"] }, "run"],
  ] as const)("%o is said as %s", (more, words) => {
    expect(blockWords(file, block("x", more))).toBe(words);
  });

  test("takes whole minutes, never none", () => {
    expect([0.2, 4.7, 9].map(minutesWord)).toEqual(["1 min", "5 min", "9 min"]);
  });
});

describe("what changed since the plan in use", () => {
  const words = (before: readonly PlannedBlock[], after: readonly PlannedBlock[]) =>
    changesWords(planChanges(before, after), (song) => song.toUpperCase());

  test("is told as added, dropped, other work and moved", () => {
    const before = [block("a"), block("b"), block("c"), block("d")];
    const after = [block("d"), block("a"), block("b", { runs: 2 }), block("e")];
    expect(words(before, after)).toEqual(["Added: E.", "Dropped: C.", "Other work: B.", "Moved: D."]);
    expect(words(before, before)).toEqual([]);
  });

  test("what is told is enough to get from one plan to the other, and no song moved without need", () => {
    const plan = fc.uniqueArray(fc.constantFrom(..."abcdefg"), { maxLength: 7 });
    fc.assert(
      fc.property(plan, plan, (before, after) => {
        const { added, dropped, moved } = planChanges(
          before.map((s) => block(s)),
          after.map((s) => block(s)),
        );
        const still = (songs: readonly string[], out: readonly string[]) =>
          songs.filter((song) => !out.includes(song) && !moved.includes(song));
        expect(still(before, dropped)).toEqual(still(after, added));
        // A song that is put back among those that stayed would change their order.
        for (const song of moved) {
          const kept = (songs: readonly string[]) =>
            songs.filter(
              (one) => one === song || (before.includes(one) && after.includes(one) && !moved.includes(one)),
            );
          expect(kept(before)).not.toEqual(kept(after));
        }
      }),
      laws(),
    );
  });
});
