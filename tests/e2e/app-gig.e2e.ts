/** A gig in the whole product, from the evening before to the debrief: a leader, a dep on a phone, a member without signal. */
import { expect, test } from "vitest";
import { enterDemo, untilKept, untilSaid } from "#tests/support/app.ts";
import { testApp, UNREACHABLE } from "#tests/support/app-test.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";

const t = testApp();
const PATIENCE = { timeout: 180_000 };
const GIG = "/gigs/demo-gig-slot";
const DEP = "Karim Belhossat";

test("[DEP-1] [STAGE-1] the band from the evening before to the debrief", PATIENCE, async () => {
  t.expectComplaints(UNREACHABLE);
  // The evening before: what stands, a dep for the bass, an order that fits.
  const leader = await t.device(await enterDemo(t.address, "leader", "tomasz"), GIG, LAPTOP);
  const { page } = leader;
  await page.getByText(/of 25 min/).waitFor();
  await page.getByText("What if?", { exact: true }).click();
  await page.getByLabel("Without").selectOption({ label: "Min-jae Pardal" });
  await page.getByText(/^0 ready minutes instead of [1-9]/).waitFor();
  await page.getByRole("button", { name: "Suppose nothing" }).click();
  await page.getByLabel("Bass, backing voice that night").selectOption({ label: `${DEP} (dep)` });
  await page.getByRole("link", { name: "Order, blocks, pins" }).click();
  await page.getByRole("button", { name: "Propose a better order" }).click();
  await page.waitForFunction(() => !document.body.textContent?.includes("looking for a better one"));
  await page.getByRole("button", { name: "Use this order" }).click();
  const songs = await page.locator("li[data-song]").count();
  expect(songs).toBeGreaterThan(3);
  await untilSaid(page, "all saved");
  await leader.go(GIG);
  await page.getByRole("button", { name: `Link for ${DEP}` }).click();
  await page.getByRole("img", { name: /Opens the link into/ }).waitFor();
  await page.getByRole("radio", { name: "The link alone" }).check();
  const link = await page.getByLabel("The link", { exact: true }).inputValue();

  const dep = await t.stranger(PHONE);
  await dep.page.goto(link);
  await dep.page.getByText(`${DEP}, you sit in on`).waitFor();
  await dep.page.getByText("17:30").first().waitFor();
  await dep.page
    .getByRole("button", { name: /^Got it: / })
    .first()
    .click();
  await untilSaid(dep.page, "all saved");

  // On stage without a signal: nothing moves while the leader takes a song out.
  const drums = await t.device(await enterDemo(t.address, "member", "lucia"), `${GIG}/stand`, PHONE);
  await untilKept(drums.page);
  await drums.page.getByRole("heading", { name: "Ready" }).waitFor();
  await drums.context.setOffline(true);
  await drums.page.keyboard.press("PageDown");
  await drums.page.getByRole("heading", { name: /^1 / }).waitFor();
  const first = await drums.page.getByRole("heading", { name: /^1 / }).textContent();
  await drums.page.keyboard.press("f");
  await drums.page.getByRole("button", { name: "Flagged", pressed: true }).waitFor();
  await leader.go(`${GIG}/order`);
  await page
    .locator("li[data-song]")
    .last()
    .getByRole("button", { name: /^More about/ })
    .click();
  await page.getByRole("menuitem", { name: "Take out" }).click();
  await untilSaid(page, "all saved");
  await drums.page.reload();
  expect(await drums.page.getByRole("heading", { name: /^1 / }).textContent()).toBe(first);

  // The day after: takes for all of it, and the drummer's flag is still there.
  await leader.go(GIG);
  await page.getByRole("button", { name: "Change day, place or minutes" }).click();
  const yesterday = new Date(Date.now() - 86_400_000).toISOString().slice(0, 10);
  await page.getByRole("dialog").getByLabel("Day").fill(yesterday);
  await page.getByRole("dialog").getByRole("button", { name: "Save" }).click();
  await page.getByRole("link", { name: "Debrief" }).click();
  await page.getByRole("button", { name: "All clean" }).click();
  await page.getByText(`${songs - 1} of ${songs - 1} logged`).waitFor();
  await untilSaid(page, "all saved");
  await drums.context.setOffline(false);
  await drums.go(`${GIG}/debrief`);
  await drums.page.getByText(`${songs - 1} of ${songs - 1} logged`).waitFor();
  await drums.page.getByRole("region", { name: "Flagged on stage" }).waitFor();
});
