import { expect, test } from "vitest";
import { DEFAULT_SETTINGS, type Settings } from "#shared/board/settings.ts";
import {
  CONSTANTS,
  constantDefault,
  constantValue,
  ownSettings,
  withConstant,
} from "#shared/selectors/constants.ts";

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

test("a changed constant is stored, and its neighbours in the same list keep their values", () => {
  const own = withConstant(DEFAULT_SETTINGS, { path: "claim.3" }, 0.7);
  expect(own).toEqual({ claim: [0, 0.3, 0.45, 0.7] });
  const both = withConstant(laid(own), { path: "kindWeight.gig" }, 1.5);
  expect(both).toEqual({
    claim: [0, 0.3, 0.45, 0.7],
    kindWeight: { solo: 0.6, drill: 0.8, run: 1, gig: 1.5 },
  });
  expect(constantValue(laid(both), { path: "kindWeight.gig" })).toBe(1.5);
});

test("a constant put back to where it starts is no longer stored", () => {
  const own = withConstant(DEFAULT_SETTINGS, { path: "gapSeconds" }, 45);
  expect(own).toEqual({ gapSeconds: 45 });
  expect(withConstant(laid(own), { path: "gapSeconds" }, 20)).toEqual({});
  expect(ownSettings(DEFAULT_SETTINGS)).toEqual({});
});
