/** A detail is ruled on where it stands, and somebody sees it differently. */
import { expect, test } from "vitest";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();

test.each([
  { name: "phone", ...PHONE, theme: "dark" as const },
  { name: "laptop", ...LAPTOP, theme: "light" as const },
])("[UI-2] a detail is ruled on and the ruling seen differently: $name", async ({ name: _, ...look }) => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/songs/demo-song-wa/part/demo-chair-dr", {
      ...look,
      query: "as=tomasz&role=leader",
    }),
  );
  page.setDefaultTimeout(8000);
  const row = page.locator("[data-card]").first();
  await row.getByRole("button", { name: /^More about/ }).click();
  await page.getByRole("menuitem", { name: "Rule on this" }).click();
  await row.getByLabel("What was decided").fill("Hit together, nobody rings over");
  await row.getByLabel("Why").fill("the room is loud");
  expect(await axeViolations(page)).toEqual([]);
  await row.getByRole("button", { name: "Save" }).click();
  await row.getByText("Hit together, nobody rings over").waitFor();
  await row.getByRole("button", { name: /^\d rulings/ }).click();
  await row.getByRole("button", { name: /^I see it differently: Hit together/ }).click();
  await row.getByLabel("How do you see it?").fill("Let the keys ring.");
  await row.getByRole("button", { name: "Put it to the band" }).click();
  await row.getByText("Somebody sees it differently.").first().waitFor();
  // Where the bar at the foot covers half a button depends on the fonts of the machine.
  await row.evaluate((element) => element.scrollIntoView({ block: "center" }));
  expect(await axeViolations(page)).toEqual([]);
  expect(await overflowing(page)).toEqual([]);
  if (look.theme === "dark") expect(await smallTargets(page, 44)).toEqual([]);
});
