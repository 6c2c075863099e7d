import type { Page } from "playwright-core";
import { expect, test } from "vitest";
import { LAPTOP, type PageOptions, PHONE } from "#tests/support/browser.ts";
import { focused, openScreen } from "#tests/support/harness/open-screen.ts";
import { testHarness } from "#tests/support/harness/test-harness.ts";
import { axeViolations } from "#tests/support/page-checks.ts";

const t = testHarness();

const open = async (path: string, query = "", options: PageOptions = LAPTOP): Promise<Page> =>
  t.keep(await openScreen(t.browser, t.address, path, { query, ...options })).page;

const said = (page: Page) => page.getByRole("region", { name: "What just happened" });
const entries = (page: Page) => page.locator("main ol button");
const whos = (page: Page): Promise<readonly string[]> =>
  page.locator("main ol button .font-semibold").allTextContents();

/** The text of every entry in sight, once those just asked for are read. */
const untilRead = async (page: Page): Promise<readonly string[]> => {
  await page.getByRole("button", { name: "Load earlier" }).waitFor();
  return entries(page).allTextContents();
};

test("entries stand latest first under their days, and further back is read when asked for", async () => {
  const page = await open("/history", "", PHONE);
  const first = await untilRead(page);
  expect(first.length).toBeGreaterThan(50);
  expect(await page.locator("main h2").first().textContent()).toBe("Thu 5 March");
  await page.getByRole("button", { name: "Load earlier" }).click();
  await expect.poll(() => entries(page).count()).toBeGreaterThan(first.length + 50);
  expect((await entries(page).allTextContents()).slice(0, first.length)).toEqual(first);
  // One heading a day, also where a page ends within one.
  const days = await page.locator("main h2").allTextContents();
  expect(new Set(days).size).toBe(days.length);
  for (;;) {
    const end = page.getByText("This is where the history of this season begins.");
    const more = page.getByRole("button", { name: "Load earlier" });
    await end.or(more).waitFor();
    if ((await end.count()) > 0) break;
    await more.click();
  }
  expect(await entries(page).last().textContent()).toContain("Six Spare Fuses");
});

test("the list is narrowed to a person and to a song", async () => {
  const page = await open("/history/demo-song-md");
  const ofSong = await untilRead(page);
  expect(ofSong.length).toBeGreaterThan(0);
  expect(ofSong.filter((text) => !text.includes("‘Marzipan Diesel’"))).toEqual([]);
  await page.getByLabel("Song").selectOption("everything");
  await page.getByLabel("Who").selectOption("Lucía Borrasco");
  await expect.poll(async () => new Set(await whos(page))).toEqual(new Set(["Lucía Borrasco"]));
});

test("an entry says what putting it back means, is put back, and undone", async () => {
  const page = await open("/history", "", PHONE);
  await untilRead(page);
  const takes = () =>
    page.evaluate(() =>
      [...window.harness.store.board().songs.values()].reduce((sum, { takes: own }) => sum + own.length, 0),
    );
  const before = await takes();
  await entries(page).filter({ hasText: "logged" }).first().click();
  const sheet = page.getByRole("dialog");
  await sheet.getByText("1 take is withdrawn").waitFor();
  expect(await axeViolations(page)).toEqual([]);
  await sheet.getByRole("button", { name: "Put this back" }).click();
  await said(page)
    .getByText(/^Put back: logged/)
    .waitFor();
  expect(await takes()).toBe(before - 1);
  await said(page).getByRole("button", { name: "Undo" }).click();
  await expect.poll(takes).toBe(before);
  await entries(page).filter({ hasText: "logged" }).first().click();
  await sheet.getByText("1 take is withdrawn").waitFor();
  await page.keyboard.press("Escape");
  expect(await focused(page)).toContain("logged");
});

test("what was put back cannot be put back twice", async () => {
  const page = await open("/history/demo-song-md");
  await untilRead(page);
  const logged = entries(page).filter({ hasText: "logged" }).first();
  await logged.click();
  const sheet = page.getByRole("dialog");
  await sheet.getByRole("button", { name: "Put this back" }).click();
  await said(page)
    .getByText(/^Put back: logged/)
    .waitFor();
  await logged.click();
  await sheet.getByText("There is nothing to put back").waitFor();
});

test("ten thousand rows are read while the page goes on drawing", async () => {
  const page = await open("/history", "rows=10000");
  await untilRead(page);
  // The rows are made in the page the first time; the second time they are read only.
  await page.evaluate(() => {
    location.hash = "#/b/demo/people";
  });
  await page.getByRole("heading", { name: "People and chairs" }).waitFor();
  await page.evaluate(() => {
    const drawn = { start: performance.now(), last: performance.now(), longest: 0 };
    Object.assign(window, { drawn });
    const next = () => {
      const now = performance.now();
      drawn.longest = Math.max(drawn.longest, now - drawn.last);
      drawn.last = now;
      requestAnimationFrame(next);
    };
    requestAnimationFrame(next);
    location.hash = "#/b/demo/history";
  });
  const texts = await untilRead(page);
  expect(texts.length).toBeGreaterThan(50);
  const share = await page.evaluate(() => {
    const drawn = Reflect.get(window, "drawn") as { start: number; last: number; longest: number };
    return drawn.longest / (drawn.last - drawn.start);
  });
  // Folded in one go, one frame would last nearly as long as all of it.
  expect(share).toBeLessThan(0.6);
});

test("an entry names the device it came from, and says when another one handed it over", async () => {
  const page = await open("/history");
  const texts = await untilRead(page);
  expect(texts.some((text) => /^\d\d:\d\dLucía Borrasco .+Phone, Firefox$/.test(text))).toBe(true);
  const passedOn = texts.filter((text) => text.includes("sent by another device"));
  expect(passedOn.length).toBeGreaterThan(0);
  expect(passedOn.length).toBeLessThan(texts.length / 4);
});

test("the board of a moment is read song by song, and the whole of it restored after a count of what changes", async () => {
  const page = await open("/history/at/demo-2/915", "", PHONE);
  await page
    .getByText(/Wed 4 February at \d\d:\d\d/)
    .first()
    .waitFor();
  await page.locator("summary", { hasText: "Kettle in the Key of Rain" }).click();
  await page.getByText("Lucía Borrasco: locked in").first().waitFor();
  const takes = () =>
    page.evaluate(() =>
      [...window.harness.store.board().songs.values()].reduce((sum, { takes: own }) => sum + own.length, 0),
    );
  const before = await takes();
  await page.getByRole("button", { name: "Restore the whole board to this moment" }).click();
  const dialog = page.getByRole("dialog");
  await dialog.getByText(/takes are withdrawn/).waitFor();
  await dialog.getByRole("button", { name: "Restore it" }).click();
  await said(page)
    .getByText(/^The board is back at Wed 4 February at/)
    .waitFor();
  expect(await takes()).toBeLessThan(before);
  await said(page).getByRole("button", { name: "Undo" }).click();
  await expect.poll(takes).toBe(before);
});

test("an earlier season is read, and nothing of it is put back", async () => {
  const page = await open("/history/at/demo/900");
  await page.getByText("This season is closed: it can be read, and nothing of it put back.").waitFor();
  expect(await page.getByRole("button", { name: /^Restore/ }).count()).toBe(0);
});

test("members and guests are told whom to ask", async () => {
  const page = await open("/history", "as=lucia&role=member", PHONE);
  await page.getByText("The history is the leader's to read.").waitFor();
  await page.goto(`${t.address}/?role=guest&as=nobody#/b/demo/history/at/demo-2/915`);
  await page.getByText("The history is the leader's to read.").waitFor();
});
