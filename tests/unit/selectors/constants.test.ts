import { expect, test } from "vitest";
import { DEFAULT_SETTINGS, type Settings } from "#shared/board/settings.ts";
import { backToStart, CONSTANTS, constantDefault, constantValue } from "#shared/selectors/constants.ts";

const ALL = CONSTANTS.flatMap(({ constants }) => constants);
const laid = (own: object): Settings => ({ ...DEFAULT_SETTINGS, ...own });

test("every number of the settings is explained once, or fixed on purpose", () => {
  const leaves = Object.entries(DEFAULT_SETTINGS).flatMap(([name, value]) =>
    typeof value === "object" ? Object.keys(value).map((key) => `${name}.${key}`) : [name],
  );
  const fixed = ["claim.0", "fresh.drill", "fresh.run", "fresh.gig"];
  expect([...ALL.map(({ path }) => path), ...fixed].sort()).toEqual([...leaves].sort());
});

test("every constant starts inside its bounds and on its steps", () => {
  for (const constant of ALL) {
    const start = constantDefault(constant);
    expect(start, constant.path).toBeGreaterThanOrEqual(constant.min);
    expect(start, constant.path).toBeLessThanOrEqual(constant.max);
    expect(constant.why, constant.path).not.toBe("");
  }
});

test("what the band has set itself is put back by naming it, leaf by leaf", () => {
  const own = laid({ gapSeconds: 45, kindWeight: { ...DEFAULT_SETTINGS.kindWeight, gig: 1.5 } });
  expect(constantValue(own, { path: "kindWeight.gig" })).toBe(1.5);
  expect(backToStart(own)).toEqual({ gapSeconds: null, "kindWeight.gig": null });
  expect(backToStart(DEFAULT_SETTINGS)).toEqual({});
});
