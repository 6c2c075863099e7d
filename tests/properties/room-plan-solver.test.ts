import fc from "fast-check";
import highs from "highs";
import { describe, expect, test } from "vitest";
import { type Menu, mustsTooMany, type Solution, solve } from "#shared/plan/solve.ts";
import { laws } from "#tests/support/fuzz.ts";

const half = (most: number) => fc.integer({ min: 1, max: most * 2 }).map((n) => n / 2);

const menus = (songs: number, phases: number): fc.Arbitrary<readonly Menu[]> =>
  fc
    .array(
      fc.record({
        must: fc.integer({ min: 0, max: 6 }).map((n) => n === 0),
        choices: fc.array(
          fc.record({
            phase: fc.nat(phases - 1),
            minutes: half(10),
            // Whole numbers, so that sums are exact.
            value: fc.nat(1000),
          }),
          { minLength: 1, maxLength: 3 },
        ),
      }),
      { minLength: 0, maxLength: songs },
    )
    .map((list) => list.map((menu, i) => ({ song: `song ${String(i).padStart(2, "0")}`, ...menu })));

const evening = (songs: number, most: number) =>
  fc.integer({ min: 1, max: 2 }).chain((phases) =>
    fc.record({
      menus: menus(songs, phases),
      minutes: fc.array(half(most), { minLength: phases, maxLength: phases }),
    }),
  );

/** The highest value by trying everything; null when the musts do not fit. */
const bruteForce = (list: readonly Menu[], minutes: readonly number[], at = 0): number | null => {
  const menu = list[at];
  if (menu === undefined) return 0;
  let best = menu.must ? null : bruteForce(list, minutes, at + 1);
  for (const { phase, minutes: cost, value } of menu.choices) {
    if ((minutes[phase] ?? 0) < cost) continue;
    const left = minutes.map((m, p) => (p === phase ? m - cost : m));
    const rest = bruteForce(list, left, at + 1);
    if (rest !== null && (best === null || rest + value > best)) best = rest + value;
  }
  return best;
};

const chosenOf = (list: readonly Menu[], { chosen }: Solution) =>
  list.flatMap(({ song, choices }) => {
    const choice = choices[chosen.get(song) ?? -1];
    return choice === undefined ? [] : [{ song, ...choice }];
  });

test("the plan is as good as the best of all plans", () => {
  fc.assert(
    fc.property(evening(5, 14), ({ menus: list, minutes }) => {
      expect(solve(list, minutes)?.value ?? null).toBe(bruteForce(list, minutes));
    }),
    laws(1500),
  );
});

test("it never takes more minutes than there are, holds every must, and its value is the sum of its lines", () => {
  fc.assert(
    fc.property(evening(20, 40), ({ menus: list, minutes }) => {
      const solution = solve(list, minutes);
      if (solution === null) return;
      const lines = chosenOf(list, solution);
      minutes.forEach((most, phase) => {
        const used = lines
          .filter((line) => line.phase === phase)
          .reduce((sum, line) => sum + line.minutes, 0);
        expect(used).toBeLessThanOrEqual(most);
      });
      for (const { song, must } of list)
        if (must) expect(lines.some((line) => line.song === song)).toBe(true);
      expect(lines.reduce((sum, { value }) => sum + value, 0)).toBe(solution.value);
    }),
    laws(500),
  );
});

test("more minutes are never worth less, and the order of the songs makes no difference", () => {
  fc.assert(
    fc.property(evening(12, 30), half(10), ({ menus: list, minutes }, more) => {
      const solution = solve(list, minutes);
      const turned = solve([...list].reverse(), minutes);
      expect(turned?.value).toBe(solution?.value);
      expect(turned && [...turned.chosen].sort()).toEqual(solution && [...solution.chosen].sort());
      const longer = solve(
        list,
        minutes.map((m) => m + more),
      );
      if (solution !== null) expect(longer?.value).toBeGreaterThanOrEqual(solution.value);
    }),
    laws(500),
  );
});

test("without the musts that are named as too many, the others fit", () => {
  fc.assert(
    fc.property(evening(8, 8), ({ menus: list, minutes }) => {
      const dropped = mustsTooMany(list, minutes);
      const eased = list.map((menu) => (dropped.includes(menu.song) ? { ...menu, must: false } : menu));
      expect(solve(eased, minutes)).not.toBeNull();
      expect(dropped.length === 0).toBe(solve(list, minutes) !== null);
    }),
    laws(500),
  );
});

describe("against HiGHS, an open solver of integer programs (highs 1.15)", async () => {
  const solver = await highs();

  const asProgram = (list: readonly Menu[], minutes: readonly number[]): string => {
    const name = (i: number, j: number): string => `x${i}_${j}`;
    const objective = list.flatMap(({ choices }, i) =>
      choices.map(({ value }, j) => `${value} ${name(i, j)}`),
    );
    const once = list.map(
      ({ must, choices }, i) =>
        `once${i}: ${choices.map((_, j) => name(i, j)).join(" + ")} ${must ? "=" : "<="} 1`,
    );
    const within = minutes.flatMap((most, phase) => {
      const terms = list.flatMap(({ choices }, i) =>
        choices.flatMap((choice, j) => (choice.phase === phase ? [`${choice.minutes} ${name(i, j)}`] : [])),
      );
      return terms.length === 0 ? [] : [`within${phase}: ${terms.join(" + ")} <= ${most}`];
    });
    const binary = list.flatMap(({ choices }, i) => choices.map((_, j) => name(i, j)));
    return [
      "Maximize",
      ` obj: ${objective.join(" + ")}`,
      "Subject To",
      ...[...once, ...within].map((row) => ` ${row}`),
      "Binary",
      ` ${binary.join(" ")}`,
      "End",
    ].join("\n");
  };

  test("random evenings of up to 14 songs come out the same", () => {
    let solved = 0;
    fc.assert(
      fc.property(evening(14, 40), ({ menus: list, minutes }) => {
        if (list.length === 0) return;
        const theirs = solver.solve(asProgram(list, minutes), { mip_rel_gap: 0 });
        const ours = solve(list, minutes);
        if (theirs.Status === "Infeasible") expect(ours).toBeNull();
        else {
          solved += 1;
          expect(ours?.value).toBe(Math.round(theirs.ObjectiveValue));
        }
      }),
      laws(80),
    );
    expect(solved).toBeGreaterThan(40);
  });
});
