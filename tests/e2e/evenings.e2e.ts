import { expect, test } from "vitest";
import { PHONE } from "#tests/support/browser.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";

const t = testHarness();

test("a member says days away, keeps the reason, and the gig leads to the empty chair", async () => {
  const { page } = t.keep(
    await openScreen(t.browser, t.address, "/people", { ...PHONE, query: "as=lucia&role=member" }),
  );
  const away = page.getByRole("region", { name: "Away" });
  expect(await away.getByRole("listitem").count()).toBe(1);
  await away.getByRole("button", { name: "Say days away" }).click();
  const form = page.getByRole("dialog");
  await form.getByRole("button", { name: "Save" }).click();
  await form.getByText("Give the first day you cannot come.").waitFor();
  const gigDay = await page.evaluate(() => {
    const store = Reflect.get(window, "harness").store;
    return String(store.board().gigs.at(-2)?.date);
  });
  await form.getByLabel("First day away").fill(gigDay);
  await form.getByLabel("Why, for yourself").fill("A wedding");
  await form.getByRole("button", { name: "Save" }).click();
  await away.getByText("A wedding (only you see why)").waitFor();
  const stored = await page.evaluate(() =>
    JSON.stringify(Reflect.get(window, "harness").store.board().aways),
  );
  expect(stored).toContain(gigDay);
  expect(stored).not.toContain("wedding");

  await page.goto(page.url().replace("/people", "/gigs"));
  const row = page.getByRole("link", { name: /^25-minute slot/ });
  expect(await row.textContent()).toContain("Away: Lucía Borrasco (Drums)");
  await row.click();
  await page.getByRole("button", { name: "Seat somebody that night" }).click();
  await page.getByLabel("Drums that night").selectOption({ label: "Karim Belhossat (dep)" });
  await page.getByText("Away: Lucía Borrasco").waitFor({ state: "detached" });
});
