import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import { HARNESS_NOW } from "#tests/support/harness/harness-boards.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();
const LISTEN = "/songs/demo-song-md/listen";
// The demo's song counts 112 and begins with eight bars of intro. A beat lasts 60 / 112 s, so 20 s and a beat are 38.3
// beats, six into the second section, and 24 s and a beat are 45.8, thirteen into it.
const details = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() =>
    (window.harness.store.board().songs.get("demo-song-md")?.cards ?? [])
      .filter(({ where }) => where.clock !== undefined)
      .map(
        ({ text, kind, chairs, where }) =>
          `${text}, ${kind}, ${chairs.join()}, ${where.from?.bar} ${where.from?.beat} ${where.clock}`,
      ),
  );

test("[UI-2] three things are heard with one tap each, corrected once, and put on the board together", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, LISTEN, { query: "as=tomasz&role=member", ...PHONE }),
  );
  const at = (seconds: number) => page.clock.setFixedTime(HARNESS_NOW + seconds * 1000);
  await at(0);
  await page.getByRole("button", { name: "Start with the record" }).click();
  await at(20);
  await page.getByRole("button", { name: "Drums", exact: true }).click();
  const first = page.locator("[data-spotted]").first();
  await first.getByRole("button", { name: "Rests" }).click();
  await at(24);
  await page.getByRole("button", { name: "Nobody yet" }).click();
  await page.locator("[data-spotted]").first().getByRole("textbox").fill("Somebody shakes a tambourine");
  await at(26);
  await page.getByRole("button", { name: "Keys", exact: false }).first().click();
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  await page.reload();
  await page.getByText("1 still without words").waitFor();
  await at(26);
  await page.getByRole("button", { name: "Place on a beat" }).click();
  await page.getByRole("button", { name: "Stop", exact: true }).click();
  await page.getByRole("button", { name: "Put 2 on the board" }).click();
  expect(await details(page)).toEqual([
    "Rests, rest, demo-chair-dr, 2 3 20",
    "Somebody shakes a tambourine, general, , 4 2 24",
  ]);
  expect(await page.locator("[data-spotted]").count()).toBe(1);
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(() => details(page)).toEqual([]);
});

test("[UI-2] with keys alone: a digit drops, the words are typed, and Enter gives the digits back", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, LISTEN, { query: "as=tomasz&role=member", ...LAPTOP }),
  );
  await page.clock.setFixedTime(HARNESS_NOW);
  await page.getByRole("button", { name: "Start with the record" }).press("Enter");
  await page.keyboard.press("1");
  await page.keyboard.type("2 hits, then off");
  await page.keyboard.press("Enter");
  await page.keyboard.press("2");
  await expect.poll(() => page.locator("[data-spotted]").count()).toBe(2);
  expect(await page.locator("[data-spotted]").last().getByRole("textbox").inputValue()).toBe(
    "2 hits, then off",
  );
  expect(await axeViolations(page)).toEqual([]);
});
