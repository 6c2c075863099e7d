import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { LAPTOP, PHONE } from "#tests/support/browser.ts";
import { openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations, overflowing, smallTargets } from "#tests/support/page-checks.ts";

const t = testHarness();
const ORDER = "/gigs/demo-gig-slot/order";
const LEADER = "as=tomasz&role=leader";
const stored = (page: Page): Promise<readonly string[]> =>
  page.evaluate(() =>
    (window.harness.store.board().gigs.find(({ id }) => id === "demo-gig-slot")?.songs ?? []).map(
      ({ song, block, pin }) => `${song.replace("demo-song-", "")} ${block}${pin === "" ? "" : ` ${pin}`}`,
    ),
  );

test("[UI-2] a pinned song stays while a better order is proposed, taken, and taken back", async () => {
  const { page } = t.keep(await openScreen(t.browser, t.address, ORDER, { query: LEADER, ...LAPTOP }));
  const before = await stored(page);
  expect(before[0]).toBe("md 0");
  await page.getByRole("button", { name: "More about Marzipan Diesel" }).click();
  await page.getByRole("menuitem", { name: "Keep it here" }).click();
  await page.getByRole("button", { name: "Propose a better order" }).click();
  const use = page.getByRole("button", { name: "Use this order" });
  await page.waitForFunction(() => !document.body.textContent?.includes("looking for a better one"));
  expect(await page.getByRole("region", { name: "Another order" }).textContent()).toMatch(/Better: /);
  expect(await axeViolations(page)).toEqual([]);
  await use.click();
  const after = await stored(page);
  expect(after[0]).toBe("md 0 here");
  expect(after).not.toEqual([`${before[0]} here`, ...before.slice(1)]);
  await page.getByRole("button", { name: "Undo" }).last().click();
  await expect.poll(() => stored(page)).toEqual([`${before[0]} here`, ...before.slice(1)]);
});

test("[UI-2] on a phone a song is dragged by its handle, and stepped by keys into another block", async () => {
  const { page } = t.keep(await openScreen(t.browser, t.address, ORDER, { query: LEADER, ...PHONE }));
  const [first, second, third, ...rest] = await stored(page);
  const rows = page.locator("li[data-song]");
  await rows.first().scrollIntoViewIfNeeded();
  const handle = await rows.first().locator("[aria-hidden].touch-none").boundingBox();
  const onto = await rows.nth(2).boundingBox();
  if (handle === null || onto === null) throw new Error("The rows are not on the page.");
  await page.mouse.move(handle.x + 10, handle.y + 10);
  await page.mouse.down();
  await page.mouse.move(handle.x + 10, onto.y + onto.height * 0.4, { steps: 4 });
  await page.mouse.up();
  await expect.poll(() => stored(page)).toEqual([second, first, third, ...rest]);
  await page.getByLabel("Minutes of each block").fill("15, ten");
  await page.getByRole("button", { name: "Set", exact: true }).click();
  await page.getByText("Write whole minutes from 1 to 600").waitFor();
  await page.getByLabel("Minutes of each block").fill("15, 10");
  await page.getByRole("button", { name: "Set", exact: true }).click();
  await page.getByRole("heading", { name: "Block 2" }).waitFor();
  await rows.last().getByRole("link").focus();
  await page.keyboard.press("Alt+ArrowDown");
  await expect.poll(async () => (await stored(page)).at(-1)?.split(" ")[1]).toBe("1");
  expect(await overflowing(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  expect(await axeViolations(page)).toEqual([]);
});

test("[UI-2] what somebody asked for is written down, put in or struck, and says what becomes of it", async () => {
  const { page } = t.keep(await openScreen(t.browser, t.address, ORDER, { query: LEADER, ...PHONE }));
  const requests = page.getByRole("region", { name: "Requests" });
  const notCalled = await page.evaluate(() => {
    const board = window.harness.store.board();
    const gig = board.gigs.find(({ id }) => id === "demo-gig-slot");
    const called = new Set(gig?.songs.map(({ song }) => song));
    return [...board.songs.values()].find(({ song }) => !called.has(song.id))?.song.title ?? "";
  });
  await requests.getByLabel("Asked for").selectOption({ label: notCalled });
  await requests.getByLabel("by").fill("the host");
  await requests.getByRole("button", { name: "Write it down" }).click();
  const line = requests.getByRole("listitem").filter({ hasText: notCalled });
  await line.getByText(/^the host · (not ready|ready, and not in it)$/).waitFor();
  const before = await stored(page);
  expect(await overflowing(page)).toEqual([]);
  expect(await smallTargets(page, 44)).toEqual([]);
  expect(await axeViolations(page)).toEqual([]);
  await line.getByRole("button", { name: "Put in" }).click();
  await line.getByText("the host · in it").waitFor();
  expect(await stored(page)).toHaveLength(before.length + 1);
  await page.locator("ol > li[data-song]", { hasText: notCalled }).getByText("requested").waitFor();
  await line.getByRole("button", { name: "Strike it" }).click();
  await line.waitFor({ state: "detached" });
  // Striking the request leaves the song where it was put.
  expect(await stored(page)).toHaveLength(before.length + 1);
});
