import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import { contrast } from "#tests/support/contrast.ts";

const stylesheet = readFileSync(new URL("../../client/app.css", import.meta.url), "utf8");

interface Token {
  readonly light: string;
  readonly dark: string;
}

const tokensIn = (css: string): Readonly<Record<string, Token>> =>
  Object.fromEntries(
    [...css.matchAll(/--color-([a-z]+): light-dark\((#[0-9a-f]{6}), (#[0-9a-f]{6})\)/g)].map(
      ([, name = "", light = "", dark = ""]) => [name, { light, dark }],
    ),
  );

const block = (opening: string): string => {
  const start = stylesheet.indexOf(opening);
  return start < 0 ? "" : stylesheet.slice(start, stylesheet.indexOf("\n}", start));
};

const plain = tokensIn(block("@theme {"));
const more = tokensIn(block("@media (prefers-contrast: more)"));
const THEMES = ["light", "dark"] as const;
const GROUNDS = ["ground", "raised"] as const;

test.each([
  // The values of the npm package wcag-contrast, an independent writing of the formula.
  ["#767676", 4.5422],
  ["#777777", 4.4781],
  ["#757575", 4.6075],
  ["#949494", 3.0335],
  ["#959595", 2.9953],
  ["#595959", 7.0047],
  ["#5a5a5a", 6.8969],
  ["#ff0000", 3.9985],
  ["#0000ff", 8.5925],
  ["#808080", 3.9494],
  ["#000000", 21],
])("[UI-1] the contrast of %s on white is %f", (colour, expected) => {
  expect(contrast(colour, "#ffffff")).toBeCloseTo(expected, 4);
});

test("the stylesheet names its eight colours once, each with a light and a dark value", () => {
  expect(Object.keys(plain).sort()).toEqual(
    ["accent", "control", "ground", "ink", "line", "quiet", "raised", "slip"].sort(),
  );
});

const pairs = THEMES.flatMap((theme) => GROUNDS.map((ground) => ({ theme, ground })));

// WCAG 2.2 SC 1.4.6 (AAA): 7:1 for text.
test.each(pairs)(
  "text of every colour reads at 7:1 on the $ground of the $theme theme",
  ({ theme, ground }) => {
    for (const name of ["ink", "quiet", "accent", "slip"]) {
      expect(contrast(plain[name]?.[theme] ?? "", plain[ground]?.[theme] ?? ""), name).toBeGreaterThanOrEqual(
        7,
      );
    }
  },
);

// WCAG 2.2 SC 1.4.11 (AA): 3:1 for what shows where a control is.
test.each(pairs)(
  "borders of controls stand out at 3:1 on the $ground of the $theme theme",
  ({ theme, ground }) => {
    expect(contrast(plain.control?.[theme] ?? "", plain[ground]?.[theme] ?? "")).toBeGreaterThanOrEqual(3);
  },
);

test.each(pairs)("more contrast, when asked for, is more: $theme theme, $ground", ({ theme, ground }) => {
  for (const [name, token] of Object.entries(more)) {
    if (name === "ground" || name === "raised") continue;
    const asked = contrast(token[theme], more[ground]?.[theme] ?? "");
    const usual = contrast(plain[name]?.[theme] ?? "", plain[ground]?.[theme] ?? "");
    expect(asked, name).toBeGreaterThan(usual);
    expect(asked, name).toBeGreaterThanOrEqual(7);
  }
  expect(Object.keys(more).length).toBeGreaterThan(2);
});
