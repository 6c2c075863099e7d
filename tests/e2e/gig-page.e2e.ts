import { expect, test } from "vitest";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();
const GIG = "/gigs/demo-gig-slot";
const LEADER = "as=tomasz&role=leader";

test("[UI-2] what if somebody is missing: said at once, nothing written, then made so and taken back", async () => {
  const { page } = t.keep(await openScreen(t.browser, t.address, GIG, { query: LEADER, ...PHONE }));
  const away = (): Promise<readonly string[] | undefined> =>
    page.evaluate(() => window.harness.store.board().gigs.find(({ id }) => id === "demo-gig-slot")?.away);
  expect(await away()).toEqual([]);
  await page.getByText("What if?", { exact: true }).click();
  await page.getByLabel("Without").selectOption({ label: "Lucía Borrasco" });
  await page.getByText(/^\d+ ready minutes instead of \d+/).waitFor();
  expect(await page.getByText(/^0 ready minutes instead of [1-9]/).count()).toBe(1);
  await page
    .getByText(/not ready then: .*Drums/)
    .first()
    .waitFor();
  await page.getByLabel("in the key of").fill("H");
  await page.getByRole("button", { name: "Try" }).click();
  await page.getByText(/in English names that note is B/).waitFor();
  expect(await away()).toEqual([]);
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  await page.getByRole("button", { name: "Make it so" }).click();
  await expect.poll(away).toHaveLength(1);
  await page.getByText("Away: Lucía Borrasco (Drums)").waitFor();
  await page.getByRole("button", { name: "Undo" }).click();
  await expect.poll(away).toEqual([]);
});

test("[UI-2] spares, the way to the night and what is agreed stand on the gig's page", async () => {
  const { page } = t.keep(await openScreen(t.browser, t.address, GIG, { query: LEADER, ...LAPTOP }));
  await page.getByText("Spares and stale songs").click();
  await page
    .getByRole("button", { name: /^Swap .* for / })
    .first()
    .waitFor();
  await page.getByText("From today to the night").click();
  await page.getByText(/On the night it is \d+ % if nothing more happens/).waitFor();
  await page.getByRole("button", { name: "Change what is agreed" }).click();
  await page.getByLabel("Everybody there at").fill("half five");
  await page.getByRole("button", { name: "Save" }).click();
  await page.getByText("Write a time such as 17:30.").waitFor();
  await page.getByLabel("Everybody there at").fill("17:30");
  await page.getByRole("button", { name: "Save" }).click();
  await page.getByText("17:30").first().waitFor();
  expect(await axeViolations(page)).toEqual([]);
});
