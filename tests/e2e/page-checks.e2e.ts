/** The checks themselves: each must find what it is there to find, on a page made for it. */
import type { Browser } from "playwright-core";
import { afterAll, beforeAll, expect, test } from "vitest";
import { launchBrowser, openPage, PHONE } from "#tests/support/browser.ts";
import { axeViolations, borderContrasts, overflowing, smallTargets } from "#tests/support/page-checks.ts";

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

const FAINT = "color: #777; background: #888";

const page = (
  style: string,
): string => `<!doctype html><html lang="en"><head><title>Planted</title><meta name="viewport" content="width=device-width, initial-scale=1"><style>
  body { background: white; color: black } main { min-height: 60px }
  @media (prefers-color-scheme: dark) { body { background: black; color: white } }
  ${style}</style></head><body><main><h1>Planted</h1><p class="text">A sentence to read</p>
  <p><a href="#x">A link that stands alone</a></p><button>Press</button></main></body></html>`;

test("each check finds what was planted for it, in either theme, and nothing on a page without faults", async () => {
  const opened = await openPage(browser, { ...PHONE, theme: "dark" });
  const look = async (html: string): Promise<readonly string[]> => {
    await opened.page.setContent(html);
    return axeViolations(opened.page);
  };
  const clean =
    "a, button { color: inherit; background: inherit; min-height: 48px; min-width: 48px; border: 1px solid; display: inline-block }";
  try {
    expect(await look(page(clean))).toEqual([]);
    expect(await overflowing(opened.page)).toEqual([]);
    expect(await smallTargets(opened.page, 44)).toEqual([]);
    const dark = await look(page(`${clean} @media (prefers-color-scheme: dark) { .text { ${FAINT} } }`));
    expect(dark.join()).toContain("color-contrast");
    expect(dark.some((line) => line.startsWith("light:"))).toBe(false);
    const light = await look(page(`${clean} @media (prefers-color-scheme: light) { .text { ${FAINT} } }`));
    expect(light.length).toBeGreaterThan(0);
    expect(light.every((line) => line.startsWith("light:"))).toBe(true);
    expect((await look(page(clean).replace('lang="en"', ""))).join()).toContain("html-has-lang");
    const cover =
      "main { position: relative } .over { position: absolute; inset: auto 0 0; min-height: 0; height: 36px; z-index: 1 }";
    const covered = page(`${clean} ${cover}`).replace(
      "Press</button>",
      'Press</button><a class="over" href="#y">Over it</a>',
    );
    expect((await look(covered)).join()).toContain("target-size");
    await opened.page.setContent(page(`${clean} .text { width: 900px }`));
    expect(await overflowing(opened.page)).not.toEqual([]);
    await opened.page.setContent(page("button { height: 10px; padding: 0; border: 1px solid #777 }"));
    expect((await smallTargets(opened.page, 44)).join()).toContain("BUTTON");
    await opened.page.setContent(page("button { border: 1px solid #111 }"));
    expect([...(await borderContrasts(opened.page)).values()].some((contrast) => contrast < 3)).toBe(true);
  } finally {
    await opened.context.close();
  }
});
