import type { Page } from "playwright-core";

/** Notes from now on whatever moves on the page; what follows a key or a tap counts as well. */
export const watchShifts = (page: Page): Promise<void> =>
  page.evaluate(() => {
    const shifts: string[] = [];
    Object.assign(window, { shifts });
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) {
        const { sources } = entry as unknown as {
          readonly sources: readonly { readonly node: Node | null }[];
        };
        shifts.push(
          ...sources.map(({ node }) => node?.parentElement?.outerHTML.slice(0, 200) ?? "something gone"),
        );
      }
    }).observe({ type: "layout-shift" });
  });

/** What moved since, once everything that was asked for has been drawn. */
export const shiftsOf = async (page: Page): Promise<readonly string[]> => {
  await page.evaluate(() => new Promise((done) => requestAnimationFrame(() => requestAnimationFrame(done))));
  return page.evaluate(() => (window as unknown as { readonly shifts: readonly string[] }).shifts);
};
