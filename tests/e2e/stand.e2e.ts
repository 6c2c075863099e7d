import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { openPage, PHONE } from "#tests/support/browser.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { shiftsOf, watchShifts } from "#tests/support/layout-shifts.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();
const GIG = "demo-gig-slot";
const SONGS = 6;

const openStand = async (): Promise<Page> => {
  const { page } = t.keep(await openPage(t.browser, { ...PHONE, theme: "light" }));
  await page.goto(`${t.address}/?as=lucia&role=member#/b/demo/gigs/${GIG}/stand`);
  await page.getByRole("heading", { name: "Ready" }).waitFor();
  return page;
};

const lines = (page: Page, attribute: string): Promise<readonly string[]> =>
  page.evaluate(
    (name) => [...document.querySelectorAll(`[${name}]`)].map((line) => line.textContent ?? ""),
    attribute,
  );
const remote = (page: Page, name: string, args: object): Promise<void> =>
  page.evaluate(([command, given]) => window.harness.remote(command as string, given), [name, args]);

test("[STAGE-1] [UI-2] a whole gig by pedal without a signal: nothing moves when the leader swaps, until it is taken over", async () => {
  const page = await openStand();
  await page.context().setOffline(true);
  await watchShifts(page);
  const title = (number: number) => page.getByRole("heading", { name: new RegExp(`^${number} `) });
  for (let number = 1; number <= SONGS; number++) {
    await page.keyboard.press("PageDown");
    await title(number).waitFor();
    expect(await overflowing(page)).toEqual([]);
    if (number === 3) {
      const before = await lines(page, "data-stand-line");
      expect(before).toHaveLength(7);
      await page.keyboard.press("f");
      const last = await page.evaluate(
        (gig) =>
          window.harness.store
            .board()
            .gigs.find(({ id }) => id === gig)
            ?.songs.at(-1)?.song ?? "",
        GIG,
      );
      await remote(page, "moveInGig", { gig: GIG, song: last, index: 0 });
      await page.getByRole("button", { name: /^The leader changed the order/ }).waitFor();
      expect(await lines(page, "data-stand-line")).toEqual(before);
      expect(await axeViolations(page)).toEqual([]);
      expect(await smallTargets(page, 56)).toEqual([]);
    }
  }
  const sixth = ((await lines(page, "data-stand-line"))[0] ?? "").replace(/^\d+ /, "");
  await page.keyboard.press("t");
  await page.getByRole("heading", { name: `1 ${sixth}` }).waitFor();
  await page.getByRole("button", { name: /^The leader changed/ }).waitFor({ state: "detached" });
  expect(await shiftsOf(page)).toEqual([]);
  expect(await page.evaluate(() => document.querySelector("[data-toasts] li"))).toBeNull();
});

test("[STAGE-1] a reload in the dark goes on at the same song of the same frozen night, with flags and ticks", async () => {
  const page = await openStand();
  for (const key of ["PageDown", "PageDown", "f"]) await page.keyboard.press(key);
  await page.getByRole("button", { name: "Flagged", pressed: true }).waitFor();
  const before = await lines(page, "data-stand-line");
  await page.reload();
  await page.getByRole("heading", { name: /^2 / }).waitFor();
  expect(await lines(page, "data-stand-line")).toEqual(before);
  await page.getByRole("button", { name: "Flagged", pressed: true }).waitFor();
  const flags = await page.evaluate((gig) => localStorage.getItem(`tightrow.gig-flags.demo.${gig}`), GIG);
  expect(JSON.parse(flags ?? "[]")).toEqual([{ song: expect.any(String), at: expect.any(Number) }]);
  await page.keyboard.press("p");
  await page.getByRole("heading", { name: "Pause" }).waitFor();
  await page.getByRole("link", { name: "Load in" }).click();
  const plugs = page.getByRole("checkbox", { name: "Ear plugs for everybody" });
  await plugs.check();
  await page.reload();
  await expect.poll(() => plugs.isChecked()).toBe(true);
  await page.goBack();
  await page.getByRole("heading", { name: "Pause" }).waitFor();
  await page.keyboard.press("PageDown");
  await page.getByRole("heading", { name: /^2 / }).waitFor();
  await page.keyboard.press("p");
  await page.getByRole("button", { name: "Begin again" }).click();
  await page.getByRole("heading", { name: "Ready" }).waitFor();
});

test("[STAGE-2] the paper says what the screen says, line by line, for every song", async () => {
  const page = await openStand();
  const screen: string[] = [];
  const pulses: string[] = [];
  for (let number = 1; number <= SONGS; number++) {
    await page.keyboard.press("PageDown");
    await page.getByRole("heading", { name: new RegExp(`^${number} `) }).waitFor();
    screen.push(...(await lines(page, "data-stand-line")));
    pulses.push(
      await page.locator(".stand-pulse").evaluate((bar) => getComputedStyle(bar).animationDuration),
    );
  }
  // At most three a second (WCAG 2.2, success criterion 2.3.1), and none where motion is not wanted.
  for (const pulse of pulses) expect(Number.parseFloat(pulse)).toBeGreaterThanOrEqual(1 / 3);
  await page.emulateMedia({ reducedMotion: "reduce" });
  expect(await page.locator(".stand-pulse").evaluate((bar) => getComputedStyle(bar).animationName)).toBe(
    "none",
  );
  await page.emulateMedia({ media: "print" });
  const paper = await page.evaluate(() =>
    [...document.querySelectorAll<HTMLElement>("[data-paper-line]")]
      .filter((line) => line.checkVisibility())
      .map((line) => line.textContent ?? ""),
  );
  expect(paper).toEqual(screen);
  expect(paper).toHaveLength(SONGS * 7);
  const order = await lines(page, "data-order-line");
  expect(order).toEqual(screen.filter((_, i) => i % 7 === 0));
  expect(await page.locator("[data-stand-line]").first().isVisible()).toBe(false);
});
