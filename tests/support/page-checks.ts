/* Checks every screen must pass, run inside a real page. */
import axe, { type RunOptions } from "axe-core";
import type { Page } from "playwright-core";
import { contrast } from "#tests/support/contrast.ts";

/** The rules of axe-core whose outcome a theme can change. */
const COLOUR_RULES = ["color-contrast", "color-contrast-enhanced"];

const violations = (page: Page, options: RunOptions): Promise<readonly string[]> =>
  page.evaluate(async (run) => {
    const found = await (window as unknown as { axe: typeof axe }).axe.run(document, {
      resultTypes: ["violations"],
      ...run,
    });
    // A bar at the foot of the window covers half of something wherever the page stands. What shows 24 × 24 px of itself
    // in the middle of the window is covered by that alone.
    const comesFree = (target: unknown): boolean => {
      const element = typeof target === "string" ? document.querySelector(target) : null;
      if (element === null) return false;
      element.scrollIntoView({ block: "center" });
      const { left, top, width, height } = element.getBoundingClientRect();
      return [-11, 0, 11].every((dx) =>
        [-11, 0, 11].every((dy) => {
          const at = document.elementFromPoint(left + width / 2 + dx, top + height / 2 + dy);
          return at !== null && element.contains(at);
        }),
      );
    };
    return found.violations.flatMap(({ id, nodes }) =>
      nodes
        .filter(
          ({ failureSummary, target }) =>
            !(id === "target-size" && failureSummary?.includes("obscured") && comesFree(target[0])),
        )
        .map((node) => `${id}: ${node.html.slice(0, 160)} ${node.failureSummary ?? ""}`),
    );
  }, options);

/**
 * What axe-core finds wrong, one line each: all rules of WCAG 2.2 A and AA, good practice, and text at 7:1 (AAA), as the
 * page stands; then its colours in the other theme. Run through the debugger, because the page's own policy rightly
 * refuses to load it.
 */
export const axeViolations = async (page: Page): Promise<readonly string[]> => {
  if (await page.evaluate(() => !("axe" in window))) await page.evaluate(axe.source);
  const rules = { "color-contrast-enhanced": { enabled: true }, "target-size": { enabled: true } };
  const found = await violations(page, { rules });
  const dark = await page.evaluate(() => matchMedia("(prefers-color-scheme: dark)").matches);
  const [own, other] = dark ? (["dark", "light"] as const) : (["light", "dark"] as const);
  await page.emulateMedia({ colorScheme: other });
  const colours = await violations(page, { runOnly: COLOUR_RULES });
  await page.emulateMedia({ colorScheme: own });
  return [...found, ...colours.map((line) => `${other}: ${line}`)];
};

/** Controls smaller than `least` CSS px in either direction (WCAG 2.2 SC 2.5.5: 44); links within a sentence are exempt. */
export const smallTargets = (page: Page, least: number): Promise<readonly string[]> =>
  page.evaluate((edge) => {
    const targets = document.querySelectorAll<HTMLElement>(
      'button, summary, select, textarea, [role="menuitem"], a[href], input',
    );
    return [...targets].flatMap((target) => {
      // A box or a dot is pressed anywhere on its label.
      const pressed = target.matches('[type="checkbox"], [type="radio"]')
        ? (target.closest("label") ?? target)
        : target;
      const box = pressed.getBoundingClientRect();
      const hidden = !target.checkVisibility() || target.matches(".sr-only:not(:focus)");
      const inSentence = target.matches("p a") && getComputedStyle(target).display === "inline";
      if (hidden || inSentence || (box.width >= edge && box.height >= edge)) return [];
      return [
        `${target.tagName} "${target.textContent?.trim() ?? ""}" ${target.className}: ${box.width}×${box.height}`,
      ];
    });
  }, least);

/** Boxes that stick out of the page to the right, except inside what scrolls sideways by itself. */
export const overflowing = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() => {
    const width = document.documentElement.clientWidth;
    if (document.documentElement.scrollWidth <= width) return [];
    return [...document.querySelectorAll<HTMLElement>("body *")]
      .filter((element) => element.getBoundingClientRect().right > width + 0.5)
      .map((element) => `${element.tagName} ${element.className}`);
  });

/** Contrast of the lower border of every control that has one, against what lies around it. */
export const borderContrasts = async (page: Page): Promise<ReadonlyMap<string, number>> => {
  const borders = await page.evaluate(() => {
    const groundUnder = (element: Element | null): string => {
      for (let at = element; at; at = at.parentElement) {
        const colour = getComputedStyle(at).backgroundColor;
        if (colour !== "rgba(0, 0, 0, 0)") return colour;
      }
      return "rgb(255, 255, 255)";
    };
    return [...document.querySelectorAll<HTMLElement>("main button, main input, main select, main textarea")]
      .filter((control) => control.checkVisibility())
      .map((control) => ({ control, style: getComputedStyle(control) }))
      .filter(({ style }) => Number.parseFloat(style.borderBottomWidth) > 0)
      .map(({ control, style }) => ({
        name: `${control.tagName} ${control.id} ${control.textContent?.trim() ?? ""}`,
        border: style.borderBottomColor,
        ground: groundUnder(control.parentElement),
      }));
  });
  return new Map(borders.map(({ name, border, ground }) => [name, contrast(border, ground)]));
};
