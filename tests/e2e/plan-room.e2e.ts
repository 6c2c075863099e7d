import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { overflowing } from "#tests/support/page-checks.ts";

const t = testHarness();
/** The day of the harness's clock, so that the room follows the plan. */
const TODAY = "2026-03-05";

const planOf = (page: Page): Promise<readonly string[]> =>
  page.evaluate(
    (day) =>
      window.harness.store
        .board()
        .rehearsals.find((rehearsal) => rehearsal.day === day)
        ?.plan.map(({ song }) => song) ?? [],
    TODAY,
  );

const proposed = (page: Page): Promise<readonly string[]> =>
  page
    .locator("[data-block]")
    .evaluateAll((rows) => rows.map((row) => (row as HTMLElement).dataset.block ?? ""));

test("a leader pins, orders and uses a plan, and the room's next song follows it", async () => {
  const { page } = t.keep(await openScreen(t.browser, t.address, `/room/plan/${TODAY}`, LAPTOP));
  const use = page.getByRole("button", { name: "Use this plan" });
  await use.waitFor();
  const before = await proposed(page);
  const [first = ""] = before;
  const row = page.locator(`[data-block="${first}"]`);
  await row.getByRole("button", { name: "not tonight" }).click();
  await expect.poll(() => proposed(page)).not.toContain(first);
  await page.getByText("Not in this plan").click();
  const asked = page.getByRole("group", { name: "Pigeon on the Payroll" });
  await asked.getByRole("button", { name: "must tonight" }).click();
  await expect.poll(() => page.locator("[data-block]", { hasText: "Pigeon on the Payroll" }).count()).toBe(1);
  const [top = "", second = ""] = await proposed(page);
  await page
    .locator(`[data-block="${second}"]`)
    .getByRole("button", { name: /^Move .* up$/ })
    .click();
  await expect.poll(() => proposed(page)).toEqual([second, top, ...(await proposed(page)).slice(2)]);
  await use.click();
  await page.getByRole("heading", { name: "The plan in use" }).waitFor();
  expect((await planOf(page)).slice(0, 2)).toEqual([second, top]);

  await page.getByRole("link", { name: "To the room" }).click();
  await page.getByRole("region", { name: "Tonight's plan" }).getByRole("link").nth(1).click();
  await expect.poll(() => page.url()).toContain(second);
  expect(await page.locator("[data-thumb-bar] a").getAttribute("href")).toContain(top);
});

test("somebody who comes late makes two stretches on a phone, and a member only reads the plan in use", async () => {
  const { page } = t.keep(await openScreen(t.browser, t.address, "/room/plan", PHONE));
  await page.getByText("Who is here").click();
  await page.getByRole("button", { name: /Min-jae Pardal/ }).click();
  await page.getByRole("radio", { name: "part of it" }).check();
  await page.getByLabel("Comes at").fill("20:30");
  await page.getByRole("button", { name: "Save" }).click();
  await page.getByText("From 20:30: with Min-jae Pardal").waitFor();
  expect(await overflowing(page)).toEqual([]);
  await page.goto(page.url().replace("/?", "/?role=member&as=lucia&"));
  await page.getByText("No plan yet").waitFor();
  expect(await page.getByRole("button", { name: "Use this plan" }).count()).toBe(0);
});
