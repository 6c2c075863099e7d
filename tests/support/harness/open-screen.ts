import type { Browser, Page } from "playwright-core";
import { LAPTOP, type OpenPage, openPage, type PageOptions, PHONE } from "#tests/support/browser.ts";

/** Opens one screen of the harness and waits for its heading. `query` is what harness.tsx reads. */
export const openScreen = async (
  browser: Browser,
  address: string,
  path: string,
  { query = "", ...options }: Partial<PageOptions> & { readonly query?: string } = {},
): Promise<OpenPage> => {
  const opened = await openPage(browser, { ...LAPTOP, reducedMotion: true, ...options });
  await opened.page.goto(`${address}/?${query}#/b/demo${path}`);
  await opened.page.getByRole("heading", { level: 1 }).waitFor();
  return opened;
};

/** What has the focus: its name, else its text. */
export const focused = (page: Page): Promise<string> =>
  page.evaluate(() => {
    const at = document.activeElement;
    return at?.getAttribute("aria-label") ?? at?.textContent?.trim() ?? "";
  });

/** Both sizes, with a title for the test, one in each theme; `axeViolations` looks at the colours of both. */
export const LOOKS = [
  { ...PHONE, theme: "dark", title: "a phone" },
  { ...LAPTOP, theme: "light", title: "a laptop" },
] as const;
