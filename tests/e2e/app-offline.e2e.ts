import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { cell, enterDemo, untilKept, untilSaid, untilShown } from "#tests/support/app.ts";
import { testApp, UNREACHABLE } from "#tests/support/app-test.ts";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";

const t = testApp();

const SONG = "demo-song-ut";
const DRUMS = "demo-chair-dr";

const umbrella = (page: Page) =>
  page.locator("summary").filter({ hasText: "Umbrella for the Tram Inspector" });
const detail = (page: Page, level: string) =>
  page.getByRole("button", { name: `Tempo: '168, never past 172; hold back Ch3': ${level}` });

/** Opens the song on my parts, unless the screen remembers that it was open. */
const openSong = async (page: Page): Promise<void> => {
  await umbrella(page).waitFor();
  if ((await page.locator("details[open]").filter({ hasText: "Umbrella" }).count()) === 0)
    await umbrella(page).click();
};

/** What was locked in before the screen was opened lies in a fold of its own. */
const openLockedIn = async (page: Page): Promise<void> => {
  await openSong(page);
  await page
    .locator("summary")
    .filter({ hasText: /^Locked in/ })
    .click();
};

test("a tick made without signal survives a reload without signal and a server that died, and arrives", async () => {
  t.expectComplaints(UNREACHABLE);
  const phone = await t.device(await enterDemo(t.address, "member", "lucia"), "/parts", PHONE);
  const laptop = await t.device(await enterDemo(t.address, "leader", "tomasz"), "/board", LAPTOP);
  const drums = cell(laptop.page, SONG, DRUMS).getByRole("img");
  const before = await drums.getAttribute("aria-label");
  const { page } = phone;
  await untilKept(page);
  await untilSaid(page, "all saved");
  await openSong(page);

  await phone.context.setOffline(true);
  await detail(page, "practised").click();
  await untilSaid(page, "on this device, 1 to send");
  await page.reload();
  await untilShown(page);
  await untilSaid(page, "on this device, 1 to send");
  await openLockedIn(page);
  await detail(page, "locked in").waitFor();
  expect(await drums.getAttribute("aria-label")).toBe(before);

  await t.app.kill();
  await untilSaid(laptop.page, "no signal");
  await t.app.start();
  await phone.context.setOffline(false);
  await untilSaid(page, "all saved");
  await untilSaid(laptop.page, "all saved");
  await expect.poll(() => drums.getAttribute("aria-label")).not.toBe(before);
  await page.reload();
  await untilShown(page);
  await openLockedIn(page);
  await detail(page, "locked in").waitFor();
});

test("every place opens without signal after one visit, also one that was never looked at", async () => {
  t.expectComplaints(UNREACHABLE);
  const { page, context, board } = await t.device(
    await enterDemo(t.address, "member", "lucia"),
    "/parts",
    PHONE,
  );
  await untilKept(page);
  await untilSaid(page, "all saved");
  await context.setOffline(true);
  await page.reload();
  await untilShown(page);
  for (const place of ["/board", "/room", "/songs", "/gigs", "/people", "/settings", `/songs/${SONG}`]) {
    await page.goto(`${t.address}/#/b/${board}${place}`);
    await untilShown(page);
    expect(await page.getByRole("heading", { name: "Nothing here" }).count(), place).toBe(0);
  }
});

test("what was ticked while the server was down is saved once it is back, without touching the page", async () => {
  t.expectComplaints(UNREACHABLE);
  const { page } = await t.device(
    await enterDemo(t.address, "member", "minjae"),
    "/songs/demo-song-vb/part/demo-chair-bs",
    PHONE,
  );
  await untilSaid(page, "all saved");
  await t.app.kill();
  const ticked = page.getByRole("button", { name: /^Ending: .*practised$/ });
  await ticked.click();
  await untilSaid(page, "1 to send");
  await t.app.start();
  await untilSaid(page, "all saved");
});
