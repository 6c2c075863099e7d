/** A member who was away reads what changed, on the whole product, with a server that is out of reach. */
import { expect, test } from "vitest";
import { enterDemo, joinAs, untilSaid } from "#tests/support/app.ts";
import { testApp, UNREACHABLE } from "#tests/support/app-test.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";

const t = testApp();
const SONG = "demo-song-md";

test("what the leader changed meanwhile stands there with a reload and no signal, and what is understood stays so", async () => {
  t.expectComplaints(UNREACHABLE);
  const leader = await enterDemo(t.address, "leader", "tomasz");
  const phone = await t.device(await joinAs(t.address, leader, "member", "demo-lucia"), "/parts", PHONE);
  const line = phone.page.getByRole("link", { name: /^While you were out/ });
  await line.filter({ hasText: "nothing new" }).waitFor();

  const laptop = await t.device(leader, `/songs/${SONG}`, LAPTOP);
  await laptop.page.getByLabel("Ask the band").fill("Who counts us in?");
  await laptop.page.getByRole("button", { name: "Ask", exact: true }).click();
  await line.filter({ hasText: "1 change" }).waitFor();
  const top = await line.evaluate((link) => link.getBoundingClientRect().top);
  await phone.page.evaluate(async () => (await navigator.serviceWorker.ready).active?.state);

  await t.app.kill();
  await untilSaid(phone.page, /signal/);
  await phone.page.reload();
  await line.filter({ hasText: "1 change" }).waitFor();
  expect(await line.evaluate((link) => link.getBoundingClientRect().top)).toBe(top);
  await line.click();
  await phone.page.getByText("Since you were away: 1 question.").waitFor();
  await phone.page.getByText(/^As of today, \d\d:\d\d\.$/).waitFor();
  await phone.page.getByRole("button", { name: "Understood" }).click();
  await phone.page.getByText(/^Nothing new since today at/).waitFor();
  await phone.page.reload();
  await phone.page.getByText(/^Nothing new since today at/).waitFor();
  expect(await phone.page.getByText("Who counts us in?").count()).toBe(0);
}, 60_000);
